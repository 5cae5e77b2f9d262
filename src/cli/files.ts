/** What makes files, or asks for what they are: loaded when it is needed, with the modules of Node that it rests on; bundled into a file of its own. */
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
