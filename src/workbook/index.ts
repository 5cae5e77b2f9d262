/**
 * The format: reads a workbook's text into typed entries with the place of every value, and its findings. Reading never
 * throws, uses neither disk nor clock, and takes bounded time for any text.
 */
export { createReader, type Reader, type Tables } from './reader.ts';
export type { Pass, ReadContext, Workbook } from './pass.ts';
export { dimensionName, expressions } from './quantities/index.ts';
export { resolvePath, type ReadFile } from './borrow.ts';
export { workbookSchema } from './published.ts';
export { visibleFindings, silencings, type Silencing } from './silencing.ts';
export {
  CELL_KINDS,
  LOG_NAMES,
  machineValues,
  namesIn,
  uncertainty,
  WIDTH_ON,
  type Known,
  type Subject,
  type Threads,
  type ComputedWork,
} from './kinds/index.ts';
export { createGuide, type Guidance, type Guide, type KeyGuidance } from './guide.ts';
export { readTree } from './read-tree.ts';
export type { Place, Tree } from './tree.ts';
export { typingAt, type Typing } from './typing.ts';
export { formatCell } from './format.ts';
export { before, withAmendment, type Corrected } from './amendment.ts';
