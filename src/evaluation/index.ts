/** The log, kept folded while it is edited: what it means now, or after any of its entries. */
export { evaluate } from './evaluate.ts';
export { createLog, type Log } from './log.ts';
export type { SessionRound } from './rounds.ts';
export type { TurnEffect } from './turn-effect.ts';
export type { StationVisit, VisitedRound } from './visit.ts';
