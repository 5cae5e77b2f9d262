/** One file per finding: a rule checks an entry with the state before it, or a visit at its end. */
import { isShotKind, type Finding, type LogEntry } from '../model/index.ts';
import type { Estimate, State } from '../estimate/index.ts';
import type { StationVerdict } from '../verdict/index.ts';

export type EntryRule = (logged: LogEntry, before: State) => Finding | readonly Finding[] | undefined;

/** A visit at its end. Its parts are computed when a rule reads them. */
export interface Outcome {
  readonly state: State;
  readonly estimate: Estimate;
  readonly verdicts: readonly StationVerdict[];
  /** Entries of the log up to the end of the visit. */
  readonly entries: readonly LogEntry[];
  /** Entries of the visit itself: findings at any other cell are dropped. */
  readonly visit: readonly LogEntry[];
}

export type OutcomeRule = (outcome: Outcome) => readonly Finding[];

/** A rule by the state at the end of the log, for any cell, those of ended visits too. */
export type LatestRule = (state: State, entries: readonly LogEntry[]) => readonly Finding[];

/** Whether an entry puts the machine back in service. */
export function isReturn({ entry }: LogEntry): boolean {
  return entry.kind === 'release' && entry.to === 'in service';
}

/** Whether an entry means that the laser was fired. */
export function fires({ entry }: LogEntry): boolean {
  return isShotKind(entry.kind);
}
