/** Identifies the file that a record describes: its hash, and its commit in version control. */
import { createHash } from 'node:crypto';
import { dirname, resolve } from 'node:path';
import { STANDARD_INPUT } from '../disk/index.ts';
import type { Identity } from '../record/index.ts';
import { gitIn, namesOf } from './git.ts';

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
