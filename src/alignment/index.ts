/** The log's meaning: where the beam is, how sure that is, and the next step. */
export { evaluate } from './evaluate.ts';
export { cellsInWords } from './cells-in-words.ts';
export { createLog, type Log } from './log.ts';
export type { SessionRound } from './rounds.ts';
export type { StationVisit, VisitedRound } from './visit.ts';
export type { Turned } from './turned.ts';
export { isMark, points, type Mark } from './points.ts';
export { threads } from './threads.ts';
export { markInWords, percent, slopeInDirections } from './mark-words.ts';
export { expectedInWords, trialInWords } from './expected-words.ts';
export { bracketed, brief, listed, placeInBrief, placeInWords, shiftInWords } from './words.ts';
