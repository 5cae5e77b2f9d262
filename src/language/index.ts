/** What an editor shows of a workbook, in offsets and plain words: nothing here knows of a protocol or a disk. */
export { createBook } from './book.ts';
export type { Book } from './book-type.ts';
export { calm, type Typed } from './calm.ts';
export { cautionsFor, wavelengthOf } from './cautions-for.ts';
export { fadedOf, type Faded } from './faded.ts';
export { relatedOf, type Related } from './related.ts';
export { statusOf } from './status.ts';
export type { Edit } from '../cells/index.ts';
export type { ReadFile, Tables } from '../workbook/index.ts';
export { threads } from '../machine/index.ts';
export { expressions } from '../workbook/index.ts';
export { HINT_KINDS, type Hint, type HintKind } from './hint.ts';
export { hintsOf } from './hints.ts';
export {
  frameInWords,
  readingInWords,
  requirementInWords,
  slopeInWords,
  stateInWords,
  unlimitedInWords,
} from './station-words.ts';
export { createGuide, type Guide } from '../workbook/index.ts';
export { hoverAt, type Hover } from './hover.ts';
export { completionsAt } from './completion.ts';
export type { Completion } from './completion-type.ts';
export { addStep, type AddedStep } from './add-step.ts';
export type { Change, Fix } from './fix.ts';
export { fixAll, fixesAt } from './fixes.ts';
export { cellAt, entriesOf, isFolded } from './entries-of.ts';
export { isSame, nameAt, namesIn, type NameUse, type Role } from './names.ts';
export { outlineOf, type OutlineItem } from './outline.ts';
export { refiling, refusal, renaming, usesOf } from './rename.ts';
export { foldsOf, linksOf, selectionAt, type Extent, type Link } from './structure.ts';
export { formatting, touchedSince } from './formatting.ts';
export { machineAt } from './machine-at.ts';
export { beamInWords, eyewearInWords, focusInWords, lossesInWords, widthsInWords } from './light-words.ts';
export {
  cellSheet,
  pathFigure,
  roundsFigure,
  screwsFigure,
  sheetOf,
  targetFigure,
  visitsFigure,
  type TargetAsked,
} from './figures/index.ts';
export { placeMark, slotsOf } from './place-mark.ts';
export { sheetSpot } from './sheet-spot.ts';
export { offMiddle } from './off-middle.ts';
export { saidOf } from './result-hints.ts';
export { unitsAt, unitsOf } from './units-of.ts';
export { turnHint } from './turn-hint.ts';
export { workResults } from './work-results.ts';
