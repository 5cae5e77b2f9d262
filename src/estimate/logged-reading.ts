/** Readings in the order of the log, the rounds that they form, and the moments that separate rounds. */
import type { Entry, Reading } from '../model/index.ts';
import type { SharedList } from '../machine/index.ts';

/** A reading, with the index of its entry. */
export interface LoggedReading extends Reading {
  /** Index of the station in the path. */
  readonly station: number;
  readonly order: number;
  /**
   * If one shot has several marks: their squared deviations from their mean, mm², and the standard uncertainty of one,
   * mm.
   */
  readonly scatter?: { readonly count: number; readonly right: number; readonly up: number; readonly u: number };
}

/** Readings of one station between which nothing moved that affects its marks. */
export interface Round {
  readonly epoch: number;
  /** The index of the entry that began this round: nothing moved since. */
  readonly since: number;
  /** When its session began, and its number among the rounds of its station in that session, from 1. */
  readonly session: number;
  readonly number: number;
  readonly readings: SharedList<LoggedReading>;
  /** Date of the last of them, as written. */
  readonly date?: string;
}

/** When something moved, as an index of entries, and the cell that logs it. */
export interface Moment {
  readonly order: number;
  readonly cell: number;
  /** The kind of move that the order of work treats separately; absent for others. */
  readonly by?: 'lock' | 'removal';
  /** The entry that moved it, or the visit that begins here. */
  readonly mover?: Entry | 'new session' | 'new visit';
}
