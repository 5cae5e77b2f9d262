/**
 * The visits of a log, what drifted between them, and where that leads. Marks in mm in the viewer's frame (looking along
 * the beam, right = beam × up); dates are calendar days as they were written, without time zones; sessions are counted from
 * 1 in the order of the file. Every `u` is a standard uncertainty; what is not known is absent.
 */
import type { StationReport, StationState } from './evaluation.ts';

export interface SessionHistory {
  readonly sessions: readonly SessionReport[];
  /** Of the stations that were seen to drift, in the order of the beam. */
  readonly forecasts: readonly Forecast[];
}

export interface SessionReport {
  readonly number: number;
  readonly title?: string;
  readonly date?: string;
  readonly by?: string;
  readonly reason?: string;
  /** Of its session cell; absent for what was done before the first of them. */
  readonly cell?: number;
  readonly stations: readonly StationInSession[];
}

export interface StationInSession {
  readonly name: string;
  readonly frame?: StationReport['frame'];
  readonly carriages?: StationReport['carriages'];
  /** Its first marks in the session, and its last where these are others. */
  readonly found?: StationMarks;
  readonly left?: StationMarks;
  /** What had moved the beam here in this session before the first marks: then these are not how it was found. */
  readonly after?: Moved;
  /** As found here less as left in an earlier session, or why that cannot be told. */
  readonly drift?: Drift | NoDrift;
}

export interface StationMarks {
  readonly date?: string;
  readonly cell: number;
  readonly state: StationState;
  readonly probability?: number;
  /** The largest distance from the middle, and between two marks. */
  readonly centre?: Measured & Spot;
  readonly spread?: Measured;
  /** Out of plumb, mrad, where that is limited. */
  readonly lean?: Measured;
  /** Tapes that the beam missed. */
  readonly missed: number;
}

/** `M1 was adjusted`, and the cell that says so. */
export interface Moved {
  readonly what: string;
  readonly cell: number;
}

/** mm, or as it says. */
export interface Measured {
  readonly value: number;
  readonly u: number;
}

/** Where the carriages stand. */
export interface Spot {
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
}

export interface Drift {
  /** The session that left the marks. */
  readonly since: number;
  /** Between the two readings; absent where a date is missing, and where they stand in the wrong order. */
  readonly days?: number;
  readonly places: readonly PlaceDrift[];
  /** Of the largest distance from the middle, over the places that were shot both times; positive is outward. */
  readonly outward: Measured;
}

export interface PlaceDrift extends Spot {
  readonly right: number;
  readonly up: number;
  /** Of either part; the two are independent. */
  readonly u: number;
  readonly size: number;
  /** Larger than reading alone leaves in 19 of 20. */
  readonly isPlain: boolean;
  /** mm a day. */
  readonly perDay?: { readonly right: number; readonly up: number; readonly u: number };
}

export interface NoDrift {
  readonly since: number;
  /** What moved the beam there in between and where that stands; or that no mark was read whole at the same place both times. */
  readonly because: ({ readonly kind: 'moved' } & Moved) | { readonly kind: 'places' };
}

export type Forecast = {
  readonly station: string;
} /** `intervals`: one is no trend; `limit`: nothing says what is too far; `moved`: after the last marks; `undated`; `missed`. */ & (
  | { readonly because: 'intervals' | 'limit' | 'moved' | 'undated' | 'missed' }
  | Outlook
);

export interface Outlook {
  /** The day of the last marks. */
  readonly from: string;
  /** mm; the largest distance from the middle that is allowed. */
  readonly limit: number;
  readonly confidence: number;
  /** What the trend rests on: so many intervals, and their days. */
  readonly intervals: number;
  readonly days: number;
  /** mm a day, at each place. */
  readonly rates: readonly (Spot & {
    readonly right: number;
    readonly up: number;
    readonly uRight: number;
    readonly uUp: number;
  })[];
  /** The first day on which the mark is less sure to be within than the limits ask, and the first on which it is as likely outside. */
  readonly unsure?: Day;
  readonly even?: Day;
  /** Farther than this nothing is said. */
  readonly until: Day;
  /** The chance of being outside, day by day so far apart. */
  readonly chances: readonly (Day & { readonly outside: number })[];
}

export interface Day {
  /** After the last marks. */
  readonly days: number;
  readonly on: string;
}
