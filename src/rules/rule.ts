/** One file per finding: a rule looks at an entry with the state before it, or at the stations as they stand. */
import type { Finding, LogEntry } from '../model/index.ts';
import type { Estimate, State } from '../estimate/index.ts';
import type { StationVerdict } from '../verdict/index.ts';

export type EntryRule = (logged: LogEntry, before: State) => Finding | readonly Finding[] | undefined;

/** A visit as it stands at its end. What a rule does not ask for is not computed. */
export interface Outcome {
  readonly state: State;
  readonly estimate: Estimate;
  readonly verdicts: readonly StationVerdict[];
  /** Of the log up to the end of the visit. */
  readonly entries: readonly LogEntry[];
  /** Those of the visit itself: findings at any other cell are dropped. */
  readonly visit: readonly LogEntry[];
}

export type OutcomeRule = (outcome: Outcome) => readonly Finding[];

/** What the end of the log decides of any of its cells, those of ended visits too. */
export type LatestRule = (state: State, entries: readonly LogEntry[]) => readonly Finding[];

/** The machine goes back to work. */
export function isReturn({ entry }: LogEntry): boolean {
  return entry.kind === 'release' && entry.to === 'in service';
}

/** What is read was burnt. */
export function fires({ entry }: LogEntry): boolean {
  return entry.kind === 'marks' || entry.kind === 'power';
}
