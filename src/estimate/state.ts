/**
 * What is known after some cells of the log: a value, never changed, so that an edit at one cell resumes from
 * the state before it. It holds what happened, and the readings that still speak for a station; what follows from
 * them is computed on request.
 *
 * An *epoch* ends where nobody knows any more what moved (an event, a new session, a changed machine, a cell
 * that cannot be read): older readings then say nothing about where the beam is, but what a screw does stays learnt.
 */
import { NOTHING_MEASURED, type Limits, type Measurements, type VisitPhase } from '../model/index.ts';
import type { Segment } from './segment.ts';
import { NO_ENDS, type Ends } from './ends.ts';
import { NO_NUTS, items, type Station, type System, type NutStates } from '../machine/index.ts';
import { NO_PRACTICE, type Practice } from './practice.ts';
import type { Plumbed } from './plumbed.ts';
import type { Unfit } from './unfit.ts';
import type { Interval, LeftMarks } from './intervals.ts';
import type { LoggedReading, Round, Moment } from './logged-reading.ts';

export interface State {
  /** Number of entries folded so far. */
  readonly order: number;
  readonly system?: System;
  readonly limits?: Limits;
  /** What happened; what is believed of the machine follows from it (`account`). */
  readonly segment?: Segment;
  /** Turns made of each screw, by `screwKey`, whichever way. */
  readonly turned: ReadonlyMap<string, number>;
  /** Index of the present epoch, and when it began. */
  readonly epoch: number;
  readonly began: Moment;
  readonly phase: VisitPhase;
  /** When the present visit began, counted in entries: with its session cell, or behind the entry before its first work. */
  readonly session: number;
  /** By part: when the beam that leaves it last changed, and when its own aperture last moved. */
  readonly steered: ReadonlyMap<string, Moment>;
  readonly placed: ReadonlyMap<string, Moment>;
  /** By station: its last round. */
  readonly rounds: ReadonlyMap<string, Round>;
  /** By station: the plumb that tapes on the bed told, with nothing since but turns and shifts. */
  readonly plumbed: ReadonlyMap<string, Plumbed>;
  readonly nuts: NutStates;
  readonly ends: Ends;
  /** The tube was changed, and the mirrors may still fit where the old one stood. */
  readonly isTubeNew: boolean;
  readonly released?: 'in service' | 'withdrawn';
  /** Who signed the last release. */
  readonly signer?: string;
  /** The last date, as written. */
  readonly date?: string;
  /** The latest of all dates. */
  readonly latest?: string;
  /** The day of the last cell that measured or moved something, since nobody knew what moved: process noise is included up to it. */
  readonly noiseDate?: string;
  /** On a state that was carried on to its latest date: the state before, and the days since. */
  readonly carriedOn?: { readonly from: State; readonly days: number };
  /** By station: marks that an earlier visit left, with nothing moved until this visit began. */
  readonly leftMarks: ReadonlyMap<string, LeftMarks>;
  /** By station: from such marks to those that this visit found. */
  readonly currentIntervals: ReadonlyMap<string, Interval>;
  /** The same of the visits before, the latest last. */
  readonly pastIntervals: readonly (readonly Interval[])[];
  readonly practice: Practice;
  readonly measured: Measurements;
  /** The machine's own hour counter, as last written. */
  readonly counter?: number;
  /** Every care cell that found a part unfit, those that are cleared among them. */
  readonly unfit: readonly Unfit[];
}

export const INITIAL_STATE: State = {
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

/** The last moment at which something moved that could move the marks at a station. */
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

/** The readings that still hold: taken since the last thing that could have moved them; the last `most` of them. */
export function freshReadings(state: State, station: Station, most?: number): readonly LoggedReading[] {
  const round = state.rounds.get(station.name);
  return round && round.epoch === state.epoch && round.since === lastMoved(state, station).order
    ? items(round.readings, most)
    : [];
}

/** The last readings of a station, whether or not they still hold. */
export function lastReadings(state: State, station: Station): readonly LoggedReading[] {
  return items(state.rounds.get(station.name)?.readings);
}
