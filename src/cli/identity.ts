/** What a record is of: the file's bytes, and what version control holds of them. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { dirname, resolve } from 'node:path';
import { STANDARD_INPUT } from '../disk/index.ts';
import type { Identity } from '../report/index.ts';

/** @param text as it was read: UTF-8, its byte order mark included */
export function identityOf(file: string, text: string, version: string): Identity {
  const bytes = Buffer.from(text);
  const revision = file === STANDARD_INPUT ? undefined : revisionOf(resolve(file), bytes);
  return { file: file === STANDARD_INPUT ? 'standard input' : file, hash: createHash('sha256').update(bytes).digest('hex'), version, ...(revision && { revision }) };
}

/** Git is asked for names of things only, so that nothing a repository is configured with is run. */
function revisionOf(path: string, bytes: Buffer): Identity['revision'] {
  const git = (...words: string[]): string | undefined => {
    try {
      return execFileSync('git', ['-C', dirname(path), '-c', 'core.fsmonitor=false', ...words], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], timeout: 10_000 }).trim();
    } catch {
      return undefined;
    }
  };
  const commit = git('rev-parse', '--verify', 'HEAD');
  if (!commit) return undefined;
  const held = /^\d+ blob ([0-9a-f]+)\t/.exec(git('ls-tree', 'HEAD', '--', path) ?? '')?.[1];
  return { commit, isChanged: held === undefined || !namesOf(bytes, held.length === 64 ? 'sha256' : 'sha1').includes(held) };
}

/** As git would name them; line ends that a checkout has changed make no difference. */
function namesOf(bytes: Buffer, algorithm: 'sha1' | 'sha256'): string[] {
  return [bytes, Buffer.from(bytes.toString('latin1').replaceAll('\r\n', '\n'), 'latin1')].map((content) => createHash(algorithm).update(`blob ${content.length}\0`).update(content).digest('hex'));
}
