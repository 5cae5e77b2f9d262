/**
 * What writes files or reads their version: bundled into a file of its own, and loaded on demand together with its Node
 * modules.
 */
import { identityOf } from './identity.ts';
import { pdfOf, pngOf } from './picture.ts';
import { write } from './write.ts';

export interface Files {
  readonly identityOf: typeof identityOf;
  readonly pdfOf: typeof pdfOf;
  readonly pngOf: typeof pngOf;
  readonly write: typeof write;
}

export const files: Files = { identityOf, pdfOf, pngOf, write };
