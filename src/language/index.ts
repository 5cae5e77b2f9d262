/** What an editor shows of a workbook, in offsets and plain words: nothing here knows of a protocol or a disk. */
export { createBook, type Book } from './book.ts';
export { calm, type Typed } from './calm.ts';
export { relatedOf, type Related } from './related.ts';
export { statusOf } from './status.ts';
export type { Edit } from '../cells/index.ts';
export type { ReadFile, Tables } from '../workbook/index.ts';
export { threads } from '../alignment/index.ts';
export { expressions } from '../workbook/index.ts';
export { hintsOf, HINT_KINDS, type Hint, type HintKind } from './hints.ts';
export { frameInWords, readingInWords, requirementInWords, slopeInWords, stateInWords } from './station-words.ts';
export { createGuide, type Guide } from '../workbook/index.ts';
export { hoverAt, type Hover } from './hover.ts';
