/** Marks of one station as one visit left them and as a later one found them, with nothing touched in between. */
import type { SharedList, System } from '../machine/index.ts';
import type { LoggedReading } from './logged-reading.ts';

export interface LeftMarks {
  readonly system: System;
  readonly readings: readonly LoggedReading[];
  /** Date of the last of them, as written. */
  readonly date: string;
}

export interface Interval {
  readonly system: System;
  readonly days: number;
  readonly from: readonly LoggedReading[];
  readonly to: SharedList<LoggedReading>;
}
