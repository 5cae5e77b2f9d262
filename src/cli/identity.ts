/** Identifies the file that a record describes: its hash, and its commit in version control. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { dirname, resolve } from 'node:path';
import { STANDARD_INPUT } from '../disk/index.ts';
import type { Identity } from '../record/index.ts';
import { onPath } from './on-path.ts';

/** @param text as read: UTF-8, with its byte order mark */
export function identityOf(file: string, text: string, version: string): Identity {
  const bytes = Buffer.from(text);
  const revision = file === STANDARD_INPUT ? undefined : revisionOf(resolve(file), bytes);
  return {
    file: file === STANDARD_INPUT ? 'standard input' : file,
    hash: createHash('sha256').update(bytes).digest('hex'),
    version,
    ...(revision && { revision }),
  };
}

/**
 * A repository may come from anybody, and its configuration names programs. These two commands print the names of
 * objects: they read neither the index nor a file of the working tree, so they run no filter, hook, watcher or
 * comparison, and no pager or editor.
 */
function revisionOf(path: string, bytes: Buffer): Identity['revision'] {
  const git = gitIn(dirname(path));
  const commit = git('rev-parse', '--verify', 'HEAD');
  if (!commit) return undefined;
  const held = /^\d+ blob ([0-9a-f]+)\t/.exec(git('ls-tree', 'HEAD', '--', path) ?? '')?.[1];
  return {
    commit,
    isChanged: held === undefined || !namesOf(bytes, held.length === 64 ? 'sha256' : 'sha1').includes(held),
  };
}

/**
 * Git still fetches an object that a partial clone lacks, through a program that the configuration names. Git does not
 * fetch if the first variable is set. For versions that do not know it, the second allows only a protocol that does not
 * exist.
 */
const NO_FETCH = { GIT_NO_LAZY_FETCH: '1', GIT_ALLOW_PROTOCOL: 'none' };

/** @returns the output of git without the line end; undefined if git fails, does not end, or is not installed */
function gitIn(folder: string): (...words: string[]) => string | undefined {
  const program = onPath(process.platform === 'win32' ? ['git.exe'] : ['git']);
  return (...words) => {
    if (program === undefined) return undefined;
    const { status, stdout } = spawnSync(program, ['-C', folder, ...words], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      env: { ...process.env, ...NO_FETCH },
      timeout: 10_000,
      killSignal: 'SIGKILL',
    });
    return status === 0 ? stdout.trim() : undefined;
  };
}

/** The object names that git would give the file, with its own line ends and with LF. */
function namesOf(bytes: Buffer, algorithm: 'sha1' | 'sha256'): string[] {
  return [bytes, Buffer.from(bytes.toString('latin1').replaceAll('\r\n', '\n'), 'latin1')].map((content) =>
    createHash(algorithm).update(`blob ${content.length}\0`).update(content).digest('hex'),
  );
}
