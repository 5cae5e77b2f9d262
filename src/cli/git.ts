/**
 * Reads version control. A repository may come from anybody, and its configuration names programs. The commands used
 * here print the names of objects: they read neither the index nor a file of the working tree, so they run no filter,
 * hook, watcher or comparison, and no pager or editor.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, realpathSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { onPath } from './on-path.ts';

/** Bytes of output: the names of a million files. */
const LARGEST = 256 * 1024 * 1024;

/**
 * Git still fetches an object that a partial clone lacks, through a program that the configuration names. Git does not
 * fetch if the first variable is set. For versions that do not know it, the second allows only a protocol that does not
 * exist.
 */
const NO_FETCH = { GIT_NO_LAZY_FETCH: '1', GIT_ALLOW_PROTOCOL: 'none' };

/** @returns the output of git without the line end; undefined if git fails, does not end, or is not installed */
export function gitIn(folder: string): (...words: string[]) => string | undefined {
  const program = onPath(process.platform === 'win32' ? ['git.exe'] : ['git']);
  return (...words) => {
    if (program === undefined) return undefined;
    const { status, stdout } = spawnSync(program, ['-C', folder, ...words], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      env: { ...process.env, ...NO_FETCH },
      timeout: 10_000,
      maxBuffer: LARGEST,
      killSignal: 'SIGKILL',
    });
    return status === 0 ? stdout.trim() : undefined;
  };
}

/** The object names that git would give the file, with its own line ends and with LF. */
export function namesOf(bytes: Buffer, algorithm: 'sha1' | 'sha256'): string[] {
  return [bytes, Buffer.from(bytes.toString('latin1').replaceAll('\r\n', '\n'), 'latin1')].map((content) =>
    createHash(algorithm).update(`blob ${content.length}\0`).update(content).digest('hex'),
  );
}

/** Whether a file differs from what a revision holds under its path; or that there is no such revision. */
export function changesSince(revision: string): (path: string) => boolean | { readonly problem: string } {
  const trees = new Map<string, ReadonlyMap<string, string> | undefined>();
  return (path) => {
    const own = realpathSync(resolve(path));
    const git = gitIn(dirname(own));
    const root = git('rev-parse', '--show-toplevel');
    if (root === undefined) return { problem: `${path} is in no git repository.` };
    if (!trees.has(root)) trees.set(root, treeOf(git, revision));
    const held = trees.get(root);
    if (!held) return { problem: `There is no revision \`${revision}\`.` };
    const blob = held.get(relative(root, own).split(sep).join('/'));
    return blob === undefined || !namesOf(readFileSync(own), blob.length === 64 ? 'sha256' : 'sha1').includes(blob);
  };
}

/** The names of the objects of a revision by their paths. */
function treeOf(git: ReturnType<typeof gitIn>, revision: string): ReadonlyMap<string, string> | undefined {
  const commit = git('rev-parse', '--verify', '--end-of-options', `${revision}^{commit}`);
  const listed = commit === undefined ? undefined : git('ls-tree', '-r', '-z', '--full-tree', commit);
  if (listed === undefined) return undefined;
  return new Map(
    listed.split('\0').flatMap((line) => {
      const [, blob, path] = /^\d+ blob ([0-9a-f]+)\t([^]*)$/.exec(line) ?? [];
      return blob === undefined || path === undefined ? [] : [[path, blob] as const];
    }),
  );
}
