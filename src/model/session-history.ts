/**
 * The visits of a log, the drift between them, and the forecast. Marks in mm in the viewer's frame (looking along the
 * beam, right = beam × up); dates are calendar days as written, without time zones; sessions are counted from 1 in the
 * order of the file. Every `u` is a standard uncertainty; unknown values are absent.
 */
import type { StationReport, StationState } from './evaluation.ts';

/** All visits with their forecasts. */
export interface SessionHistory {
  readonly sessions: readonly SessionReport[];
  /** For the stations with drift, in the order of the beam. */
  readonly forecasts: readonly Forecast[];
}

/** One visit. */
export interface SessionReport {
  readonly number: number;
  readonly title?: string;
  readonly date?: string;
  readonly by?: string;
  readonly reason?: string;
  /** The session cell; absent for work before the first session. */
  readonly cell?: number;
  readonly stations: readonly StationInSession[];
}

/** One station in a visit. */
export interface StationInSession {
  readonly name: string;
  readonly frame?: StationReport['frame'];
  readonly carriages?: StationReport['carriages'];
  /** Its first marks in the session, and its last, if these are others. */
  readonly found?: StationMarks;
  readonly left?: StationMarks;
  /** What had moved the beam here in this session before the first marks: then these are not as found. */
  readonly after?: Moved;
  /** As found here minus as left in an earlier session, or why that is unknown. */
  readonly drift?: Drift | NoDrift;
}

/** The marks of one round. */
export interface StationMarks {
  readonly date?: string;
  readonly cell: number;
  readonly state: StationState;
  readonly probability?: number;
  /** The maximum distance from the centre, and between two marks. */
  readonly centre?: Measured & CarriagePlace;
  readonly spread?: Measured;
  /** Out of plumb, mrad, if that is limited. */
  readonly lean?: Measured;
  /** Tapes that the beam missed. */
  readonly missed: number;
}

/** `M1 was adjusted`, and the cell that logs it. */
export interface Moved {
  readonly what: string;
  readonly cell: number;
}

/** mm, unless stated otherwise. */
export interface Measured {
  readonly value: number;
  readonly u: number;
}

/** The positions of the carriages. */
export interface CarriagePlace {
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
}

/** The drift of a station between two visits without a move. */
export interface Drift {
  /** The session that left the marks. */
  readonly since: number;
  /** Between the two readings; absent if a date is missing, or they are in the wrong order. */
  readonly days?: number;
  readonly places: readonly PlaceDrift[];
  /** The change of the maximum distance from the centre, over the places shot both times; positive is outward. */
  readonly outward: Measured;
}

/** The drift of the mark at one place, mm, viewer's frame. */
export interface PlaceDrift extends CarriagePlace {
  readonly right: number;
  readonly up: number;
  /** Of either coordinate; the two are independent. */
  readonly u: number;
  readonly size: number;
  /** Larger than reading noise alone would be in 19 of 20 cases. */
  readonly isPlain: boolean;
  /** mm a day. */
  readonly perDay?: { readonly right: number; readonly up: number; readonly u: number };
}

/** Why there is no drift to report. */
export interface NoDrift {
  readonly since: number;
  /**
   * What moved the beam there in between, and the cell that logs it; or `places`: no place has a complete mark in both.
   */
  readonly because: ({ readonly kind: 'moved' } & Moved) | { readonly kind: 'places' };
}

/** The forecast of a station, or why there is none. */
export type Forecast = {
  readonly station: string;
} /** `intervals`: one is no trend; `limit`: the station has no limit; `moved`: after the last marks; `undated`; `missed`. */ & (
  | { readonly because: 'intervals' | 'limit' | 'moved' | 'undated' | 'missed' }
  | Outlook
);

/** A forecast of the maximum distance from the centre. */
export interface Outlook {
  /** The day of the last marks. */
  readonly from: string;
  /** mm; the maximum allowed distance from the centre. */
  readonly limit: number;
  readonly confidence: number;
  /** The number of intervals that the trend is estimated from, and their days in total. */
  readonly intervals: number;
  readonly days: number;
  /** mm a day, at each place. */
  readonly rates: readonly (CarriagePlace & {
    readonly right: number;
    readonly up: number;
    readonly uRight: number;
    readonly uUp: number;
  })[];
  /**
   * The first day on which the probability of being within is less than the limits require, and the first on which it
   * is less than one half.
   */
  readonly unsure?: Day;
  readonly even?: Day;
  /** The last day of the forecast. */
  readonly until: Day;
  /** The probability of being out of limits, at equal intervals of days. */
  readonly chances: readonly (Day & { readonly outside: number })[];
}

/** A day of a forecast. */
export interface Day {
  /** After the last marks. */
  readonly days: number;
  readonly on: string;
}
