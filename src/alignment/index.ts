/** The log's meaning: where the beam is, how sure that is, and the next step. */
export { evaluate } from './evaluate.ts';
export { createLog, type Log } from './log.ts';
export type { SessionRound } from './rounds.ts';
export type { StationVisit, VisitedRound } from './visit.ts';
export type { Turned } from './turned.ts';
