/**
 * What is asked of one station: its limits, the places that they are about, and how they are measured on one vector of
 * marks (right, up, right, up … in mm; last, where plumb has a limit, two tapes along the beam).
 */
import type { StationLimits } from '../model/index.ts';
import { placesNeeded, placesOf, queryAt, sameCarriages, type Place } from './places.ts';
import type { Taken } from './state.ts';
import type { Station } from './system.ts';

/** What is asked of one station: its places and its limits (mm, plumb in rad). */
export interface Demand {
  readonly station: Station;
  readonly limits: StationLimits;
  readonly places: readonly Place[];
}

/** Every place a carriage is sent to, and those that were shot besides. */
export function demand(station: Station, limits: StationLimits, readings: readonly Taken[] = []): Demand {
  const places = [...placesOf(station)];
  for (const { at, with: others, carriages, height } of readings) {
    if (height === 0 && !places.some((place) => sameCarriages(place.carriages, carriages))) places.push({ at, with: others, carriages });
  }
  return { station, limits, places: withinReason(places, station, readings) };
}

/** More places than this (a draw has 64 dimensions) no limit is weighed at: first the ends, then the farthest marks. */
const MOST_PLACES = 24;

function withinReason(places: readonly Place[], station: Station, readings: readonly Taken[]): readonly Place[] {
  if (places.length <= MOST_PLACES) return places;
  const needed = placesNeeded(station);
  const rank = (place: Place) => {
    if (needed.some((corner) => sameCarriages(corner.carriages, place.carriages))) return Infinity;
    const here = readings.filter((reading) => sameCarriages(reading.carriages, place.carriages));
    return Math.max(-1, ...here.map(({ right = 0, up = 0 }) => Math.hypot(right, up)));
  };
  return places.toSorted((one, other) => rank(other) - rank(one)).slice(0, MOST_PLACES);
}

/** mm between the two tapes that give the beam's slope. */
export const PLUMB_RUN = 100;

export function demandQueries({ station, limits, places }: Demand) {
  const own = places.map((place) => queryAt(station, place.carriages));
  const at = places[0]?.carriages ?? {};
  return limits.plumb === undefined ? own : [...own, queryAt(station, at, 0), queryAt(station, at, PLUMB_RUN)];
}

/** The three measures on one vector of marks; each undefined where it has no limit. */
export interface Measures {
  readonly centre?: number;
  readonly spread?: number;
  readonly plumb?: number;
}

export function measures({ limits, places }: Demand, marks: Float64Array): Measures {
  const count = places.length;
  const tail = 2 * count;
  return {
    ...(limits.centre !== undefined && { centre: farthest(marks, count) }),
    ...(limits.spread !== undefined && { spread: widest(marks, count) }),
    ...(limits.plumb !== undefined && { plumb: Math.hypot(marks[tail + 2]! - marks[tail]!, marks[tail + 3]! - marks[tail + 1]!) / PLUMB_RUN }),
  };
}

function farthest(marks: Float64Array, count: number): number {
  let most = 0;
  for (let i = 0; i < count; i++) most = Math.max(most, Math.hypot(marks[2 * i]!, marks[2 * i + 1]!));
  return most;
}

function widest(marks: Float64Array, count: number): number {
  let most = 0;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < i; j++) most = Math.max(most, Math.hypot(marks[2 * i]! - marks[2 * j]!, marks[2 * i + 1]! - marks[2 * j + 1]!));
  }
  return most;
}
