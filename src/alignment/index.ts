/** The log's meaning: where the beam is, how sure that is, and the next step. */
export { evaluate } from './evaluate.ts';
export { createLog, type Log } from './log.ts';
export type { SessionRound } from './rounds.ts';
export type { Turned } from './turned.ts';
export { threads } from './threads.ts';
export { markInWords, percent } from './reasons.ts';
export { expectedInWords } from './expected-words.ts';
export { brief, listed, millimetres, placeInCell, placeInWords, shiftInWords } from './words.ts';
