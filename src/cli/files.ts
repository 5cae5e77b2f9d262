/** What makes files, or asks for what they are: loaded when it is needed, with the modules of Node that it rests on; bundled into a file of its own. */
import { identityOf } from './identity.ts';
import { writePdf, writePng, writeText } from './picture.ts';

export interface Files {
  readonly identityOf: typeof identityOf;
  readonly writePdf: typeof writePdf;
  readonly writePng: typeof writePng;
  readonly writeText: typeof writeText;
}

export const files: Files = { identityOf, writePdf, writePng, writeText };
