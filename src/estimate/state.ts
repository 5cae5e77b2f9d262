/**
 * The state after some cells of the log: immutable, so that an edit at one cell resumes from the state before it. It
 * records the events and the readings that are still valid; the estimate is computed from them on request.
 *
 * An *epoch* ends when nobody knows any more what moved (an event, a new session, a changed machine, a cell with
 * errors): older readings are then stale, but the estimates of screws remain.
 */
import { NOTHING_MEASURED, type Limits, type Measurements, type VisitPhase } from '../model/index.ts';
import type { Segment } from './segment.ts';
import { NO_ENDS, type Ends } from './ends.ts';
import { NO_NUTS, items, type Station, type System, type NutStates } from '../machine/index.ts';
import { NO_PRACTICE, type Practice } from './practice.ts';
import type { Plumbed } from './plumbed.ts';
import type { Unfit } from './unfit.ts';
import type { Interval, LeftMarks } from './intervals.ts';
import { FilterCache } from './filter-cache.ts';
import type { LoggedReading, Round, Moment } from './logged-reading.ts';

/** The log folded up to one entry. */
export interface State {
  /** Number of entries folded so far. */
  readonly order: number;
  readonly cache: FilterCache;
  readonly system?: System;
  readonly limits?: Limits;
  /** The events, from which the filter computes the estimate (`runFilter`). */
  readonly segment?: Segment;
  /** Sum of the absolute turns of each screw, by `screwKey`. */
  readonly turned: ReadonlyMap<string, number>;
  /** Index of the present epoch, and when it began. */
  readonly epoch: number;
  readonly began: Moment;
  readonly phase: VisitPhase;
  /**
   * When the current visit began, as an index of entries: with its session cell, or behind the entry before its first
   * work.
   */
  readonly session: number;
  /** By part: when the beam that leaves it last changed, and when its own aperture last moved. */
  readonly steered: ReadonlyMap<string, Moment>;
  readonly placed: ReadonlyMap<string, Moment>;
  /** By station: its last round. */
  readonly rounds: ReadonlyMap<string, Round>;
  /** By station: the plumb measured by tapes on the bed, if only turns and shifts followed. */
  readonly plumbed: ReadonlyMap<string, Plumbed>;
  readonly nuts: NutStates;
  readonly ends: Ends;
  /** The tube was replaced, and the mirrors may still fit the old one. */
  readonly isTubeNew: boolean;
  readonly released?: 'in service' | 'withdrawn';
  /** Who signed the last release. */
  readonly signer?: string;
  /** The last date, as written. */
  readonly date?: string;
  /** The latest of all dates. */
  readonly latest?: string;
  /**
   * The day up to which process noise is included: that of the last cell of this epoch that measured or moved
   * something.
   */
  readonly noiseDate?: string;
  /** On a state that was carried on to its latest date: the state before, and the days since. */
  readonly carriedOn?: { readonly from: State; readonly days: number };
  /** By station: marks that an earlier visit left, if nothing moved until this visit began. */
  readonly leftMarks: ReadonlyMap<string, LeftMarks>;
  /** By station: the interval from such marks to those that this visit found. */
  readonly currentIntervals: ReadonlyMap<string, Interval>;
  /** The intervals of earlier visits, latest last. */
  readonly pastIntervals: readonly (readonly Interval[])[];
  readonly practice: Practice;
  readonly measured: Measurements;
  /** The last reading of the machine's hour counter. */
  readonly counter?: number;
  /** Every care cell that found a part unfit, cleared ones included. */
  readonly unfit: readonly Unfit[];
}

/** The state before the first entry of a log. */
export function initialState(): State {
  return {
    cache: new FilterCache(),
    order: 0,
    turned: new Map(),
    epoch: 0,
    began: { order: -1, cell: -1 },
    phase: 'none',
    session: -1,
    leftMarks: new Map(),
    currentIntervals: new Map(),
    pastIntervals: [],
    steered: new Map(),
    placed: new Map(),
    rounds: new Map(),
    plumbed: new Map(),
    nuts: NO_NUTS,
    ends: NO_ENDS,
    isTubeNew: false,
    practice: NO_PRACTICE,
    measured: NOTHING_MEASURED,
    unfit: [],
  };
}

/** The last moment at which something moved that affects the marks at a station. */
export function lastMoved(state: State, station: Station): Moment {
  let last = state.began;
  const consider = (moment: Moment | undefined) => {
    if (moment && moment.order > last.order) last = moment;
  };
  consider(state.steered.get('tube'));
  for (const element of state.system?.machine.path.slice(0, station.index) ?? [])
    consider(state.steered.get(element.name));
  consider(state.placed.get(station.name));
  return last;
}

/** The readings that are still valid: taken since the last move that affects them; the last `most` of them. */
export function freshReadings(state: State, station: Station, most?: number): readonly LoggedReading[] {
  const round = state.rounds.get(station.name);
  return round && round.epoch === state.epoch && round.since === lastMoved(state, station).order
    ? items(round.readings, most)
    : [];
}

/** The last readings of a station, valid or stale. */
export function lastReadings(state: State, station: Station): readonly LoggedReading[] {
  return items(state.rounds.get(station.name)?.readings);
}
