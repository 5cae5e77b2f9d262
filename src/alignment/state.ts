/**
 * What is known after some cells of the log: a value, never changed, so that an edit at one cell resumes from
 * the state before it. It holds what happened, and the readings that still speak for a station; what follows from
 * them is computed on request.
 *
 * An *epoch* ends where nobody knows any more what moved (an event, a new session, a changed machine, a cell
 * that cannot be read): older readings then say nothing about where the beam is, but what a screw does stays learnt.
 */
import type { Limits, Reading } from '../model/index.ts';
import type { Chapter } from './account.ts';
import { NO_PRACTICE, type Practice } from './practice.ts';
import type { Plumbed } from './plumbed.ts';
import type { Station, System } from './system.ts';

/** A reading, and when it was taken. */
export interface Taken extends Reading {
  /** Index of the station in the path. */
  readonly station: number;
  readonly order: number;
}

/** Readings of one station between which nothing moved that could move its marks. */
export interface Round {
  readonly epoch: number;
  /** The moment since which nothing moved: what began this round. */
  readonly since: number;
  /** The session it belongs to, by when that began, and which of its station's rounds there it is, from 1. */
  readonly session: number;
  readonly number: number;
  readonly readings: readonly Taken[];
}

/** When something moved, counted in entries, and the cell that says so. */
export interface Moment {
  readonly order: number;
  readonly cell: number;
  /** What the order of work tells apart; absent for the rest. */
  readonly by?: 'lock' | 'removal';
}

export interface State {
  /** Number of entries folded so far. */
  readonly order: number;
  readonly system?: System;
  readonly limits?: Limits;
  /** What happened; what is believed of the machine follows from it (`account`). */
  readonly chapter?: Chapter;
  /** Turns made of each screw, by `screwKey`, whichever way. */
  readonly turned: ReadonlyMap<string, number>;
  /** Index of the present epoch, and when it began. */
  readonly epoch: number;
  readonly began: Moment;
  /** When the present session began, counted in entries. */
  readonly session: number;
  /** By part: when the beam that leaves it last changed, and when its own aperture last moved. */
  readonly steered: ReadonlyMap<string, Moment>;
  readonly placed: ReadonlyMap<string, Moment>;
  /** By station: its last round. */
  readonly rounds: ReadonlyMap<string, Round>;
  /** By station: the plumb that tapes on the bed told, with nothing since but turns and shifts. */
  readonly plumbed: ReadonlyMap<string, Plumbed>;
  readonly loose: ReadonlySet<string>;
  /** Parts whose lock the log has mentioned: their nuts are there and are used. */
  readonly locked: ReadonlySet<string>;
  readonly released?: 'in service' | 'withdrawn';
  readonly date?: string;
  readonly practice: Practice;
}

export const BEFORE: State = {
  order: 0,
  turned: new Map(),
  epoch: 0,
  began: { order: -1, cell: -1 },
  session: -1,
  steered: new Map(),
  placed: new Map(),
  rounds: new Map(),
  plumbed: new Map(),
  loose: new Set(),
  locked: new Set(),
  practice: NO_PRACTICE,
};

/** The last moment at which something moved that could move the marks at a station. */
export function lastMoved(state: State, station: Station): Moment {
  let last = state.began;
  const consider = (moment: Moment | undefined) => {
    if (moment && moment.order > last.order) last = moment;
  };
  consider(state.steered.get('tube'));
  for (const element of state.system?.machine.path.slice(0, station.index) ?? []) consider(state.steered.get(element.name));
  consider(state.placed.get(station.name));
  return last;
}

/** The readings that still hold: taken since the last thing that could have moved them. */
export function freshReadings(state: State, station: Station): readonly Taken[] {
  const round = state.rounds.get(station.name);
  return round && round.epoch === state.epoch && round.since === lastMoved(state, station).order ? round.readings : [];
}

/** The last readings of a station, whether or not they still hold. */
export function lastReadings(state: State, station: Station): readonly Taken[] {
  return state.rounds.get(station.name)?.readings ?? [];
}
