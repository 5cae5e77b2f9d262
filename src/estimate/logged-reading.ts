/** What was read and when: readings in the order of the log, the rounds that they make, and the moments that part them. */
import type { Entry, Reading } from '../model/index.ts';
import type { SharedList } from '../machine/index.ts';

/** A reading, and when it was taken. */
export interface LoggedReading extends Reading {
  /** Index of the station in the path. */
  readonly station: number;
  readonly order: number;
  /** Of several marks of one shot: their squared deviations from their mean, mm², and the standard uncertainty of one, mm. */
  readonly scatter?: { readonly count: number; readonly right: number; readonly up: number; readonly u: number };
}

/** Readings of one station between which nothing moved that could move its marks. */
export interface Round {
  readonly epoch: number;
  /** The moment since which nothing moved: what began this round. */
  readonly since: number;
  /** The session it belongs to, by when that began, and which of its station's rounds there it is, from 1. */
  readonly session: number;
  readonly number: number;
  readonly readings: SharedList<LoggedReading>;
  /** When the last of them were taken, as written. */
  readonly date?: string;
}

/** When something moved, counted in entries, and the cell that says so. */
export interface Moment {
  readonly order: number;
  readonly cell: number;
  /** What the order of work tells apart; absent for the rest. */
  readonly by?: 'lock' | 'removal';
  /** The entry that moved it, or the visit that begins here. */
  readonly mover?: Entry | 'new session' | 'new visit';
}
