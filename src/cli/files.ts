/**
 * What writes files, asks, or reads versions and the program's own pages: bundled into a file of its own, and loaded on demand together with its Node
 * modules.
 */
import { join } from 'node:path';
import { readText } from '../disk/index.ts';
import { changesSince } from './git.ts';
import { identityOf } from './identity.ts';
import { pdfOf, pngOf } from './picture.ts';
import { openDialogue } from './dialogue.ts';
import { create, exists, rewrite, write } from './write.ts';

declare const __dirname: string;

export interface Files {
  /** The text of `shared/findings.md`; undefined if it cannot be read. */
  page(): string | undefined;
  readonly changesSince: typeof changesSince;
  readonly identityOf: typeof identityOf;
  readonly pdfOf: typeof pdfOf;
  readonly pngOf: typeof pngOf;
  readonly write: typeof write;
  readonly create: typeof create;
  readonly rewrite: typeof rewrite;
  readonly exists: typeof exists;
  readonly openDialogue: typeof openDialogue;
}

export const files: Files = {
  page,
  changesSince,
  identityOf,
  pdfOf,
  pngOf,
  write,
  create,
  rewrite,
  exists,
  openDialogue,
};

function page(): string | undefined {
  const read = readText(join(__dirname, '..', 'shared', 'findings.md'));
  return 'text' in read ? read.text : undefined;
}
