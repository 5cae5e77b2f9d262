/** The log, folded incrementally while it is edited: its evaluation now, or after any of its entries. */
export { evaluate } from './evaluate.ts';
export { inConflict } from './in-conflict.ts';
export { createLog, type Log } from './log.ts';
export type { SessionRound } from './rounds.ts';
export type { TurnEffect } from './turn-effect.ts';
export type { OutcomeMark, TurnOutcome } from './turn-outcome.ts';
export type { StationVisit, VisitedRound } from './visit.ts';
