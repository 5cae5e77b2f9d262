/** What an editor shows of a workbook, in offsets and words: independent of protocol and disk. */
export { createBook } from './book/book.ts';
export type { Book } from './book/book-type.ts';
export { withoutHalfTyped, type Typed } from './findings/half-typed.ts';
export { cautionsFor, cautionsNow, wavelengthOf, type Cautions } from './words/cautions-for.ts';
export { staleMarksOf, type StaleMarks } from './findings/stale-marks.ts';
export { relatedPlaces, type RelatedPlace } from './findings/related-places.ts';
export { visitProgress, type VisitProgress } from './words/visit-progress.ts';
export { statusOf } from './hints/status.ts';
export { adviceNow, waysInWords, type Way } from './hints/advice-now.ts';
export { actsOf, type Act, type ActRow } from './hints/acts.ts';
export type { Edit } from '../cells/index.ts';
export type { ReadFile, Tables } from '../workbook/index.ts';
export { threads } from '../machine/index.ts';
export { expressions } from '../workbook/index.ts';
export { HINT_KINDS, type Hint, type HintKind } from './hints/hint.ts';
export { hintsOf } from './hints/hints.ts';
export {
  frameInWords,
  readingInWords,
  requirementInWords,
  slopeInWords,
  stateInWords,
  unlimitedInWords,
} from './words/station-words.ts';
export { createGuide, type Guide } from '../workbook/index.ts';
export { hoverAt, type Hover } from './hover/hover.ts';
export { completionsAt } from './completion/completion.ts';
export type { Completion } from './completion/completion-type.ts';
export { addStep, type AddedStep } from './edits/add-step.ts';
export type { Change, Fix } from './fixes/fix.ts';
export { fixAll, fixesAt } from './fixes/fixes.ts';
export { cellAt, isFolded } from './book/entries-of.ts';
export { nameAt, namesIn, type NameUse, type Role } from './symbols/names.ts';
export { outlineOf, type OutlineItem } from './symbols/outline.ts';
export { nestedOutline, type OutlineNode } from './symbols/nested-outline.ts';
export { refiling, refusal, renaming, usesOf } from './symbols/rename.ts';
export { foldsOf, linksOf, selectionAt, type Extent, type Link } from './symbols/structure.ts';
export { formatting, touchedSince } from './edits/formatting.ts';
export { isDescription, machineSummary, summaryInParts } from './machines/machine-summary.ts';
export { machineAt } from './book/machine-at.ts';
export { beamInWords, eyewearInWords, focusInWords, lossesInWords, widthsInWords } from './words/light-words.ts';
export * from './figures/index.ts';
export { cellView } from './cell-views/cell-view.ts';
export { slotsOf } from './book/mark-slots.ts';
export { MARK_IN_STEP, placeInStep } from './edits/place-in-step.ts';
export { amendMark, placeInNewVisit, placeMark } from './edits/place-mark.ts';
export { signatureBelow, signedCells } from './book/signed.ts';
export { blanksOf, type Blank } from './hints/blanks.ts';
export { blankMarks, filledIn, readBack, type BlankMark, type MarkRead } from './edits/fill-in.ts';
export { typedMark } from './edits/typed-mark.ts';
export { markAtCursor } from './cursor/mark-at-cursor.ts';
export { offCentre } from './book/off-centre.ts';
export { resultInWords, resultLabel } from './hints/result-hints.ts';
export { unitsAt, unitsOf } from './book/units-of.ts';
export { turnHint } from './hints/turn-hint.ts';
export { workResults } from './book/work-results.ts';
export { practiceWorkbook } from './practice/new-practice.ts';
export { practiceAt } from './book/practice-at.ts';
export { burnsAtEnd } from './practice/fire.ts';
export { asksIn, asksInWords } from './book/closed-advice.ts';
export { burnFigure, figureOf as burnFigureOf } from './practice/burn-figure.ts';
export { comparedMarks, lastCompared, type ComparedMark } from './practice/compare.ts';
export { closingSheet } from './practice/closing.ts';
export { closingInWords } from './practice/closing-words.ts';
export { expectEdit } from './practice/expect-edit.ts';
export { expectationOf, placeKey as expectedPlace } from './practice/expected.ts';
export { LEVEL_NAMES } from './practice/levels.ts';
