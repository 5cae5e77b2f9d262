/**
 * The demand on one station: its limits, the places that they apply to, and their measures by one vector of marks
 * (right, up, right, up … in mm; last, if plumb has a limit, two tapes along the beam).
 */
import type { StationLimits } from '../model/index.ts';
import { PlaceIndex, placesNeeded, placesOf, queryAt, type Place, type Station } from '../machine/index.ts';
import type { LoggedReading } from '../estimate/index.ts';

/** Places and limits of one station (mm, plumb in rad). */
export interface Demand {
  readonly station: Station;
  readonly limits: StationLimits;
  readonly places: readonly Place[];
}

/** The demand at every named place, and at the other places that were shot. */
export function demandFor(station: Station, limits: StationLimits, readings: readonly LoggedReading[] = []): Demand {
  const shot = readings.filter(({ height }) => height === 0);
  const all = new PlaceIndex(station.own?.element);
  for (const place of placesOf(station)) all.add(place);
  for (const { at, with: others, carriages } of shot)
    if (all.at(carriages).length === 0) all.add({ at, with: others, carriages });
  return { station, limits, places: withinReason(all, station, shot) };
}

/**
 * Maximum number of places (the lattice has 64 dimensions): the ends first, then the places with the farthest marks.
 */
const MOST_PLACES = 24;

function withinReason(all: PlaceIndex, station: Station, shot: readonly LoggedReading[]): readonly Place[] {
  if (all.places.length <= MOST_PLACES) return all.places;
  const ranks = new Map(all.places.map((place) => [place, -1]));
  for (const { carriages, right = 0, up = 0 } of shot)
    for (const place of all.at(carriages)) ranks.set(place, Math.max(ranks.get(place)!, Math.hypot(right, up)));
  for (const { carriages } of placesNeeded(station)) for (const place of all.at(carriages)) ranks.set(place, Infinity);
  return all.places.toSorted((one, other) => ranks.get(other)! - ranks.get(one)!).slice(0, MOST_PLACES);
}

/** mm between the two tapes that give the beam's slope. */
export const PLUMB_RUN = 100;

/** The tapes on which a demand is measured, in the order of its vector of marks. */
export function demandQueries({ station, limits, places }: Demand) {
  const own = places.map((place) => queryAt(station, place.carriages));
  const at = places[0]?.carriages ?? {};
  return limits.plumb === undefined ? own : [...own, queryAt(station, at, 0), queryAt(station, at, PLUMB_RUN)];
}

/** The three measures of one vector of marks, mm and rad; each undefined without a limit. */
export interface Measures {
  readonly centre?: number;
  readonly spread?: number;
  readonly plumb?: number;
}

/** Measures a vector of marks by the limits of a demand. */
export function measures({ limits, places }: Demand, marks: Float64Array): Measures {
  const count = places.length;
  const tail = 2 * count;
  return {
    ...(limits.centre !== undefined && { centre: farthest(marks, count) }),
    ...(limits.spread !== undefined && { spread: widest(marks, count) }),
    ...(limits.plumb !== undefined && {
      plumb: Math.hypot(marks[tail + 2]! - marks[tail]!, marks[tail + 3]! - marks[tail + 1]!) / PLUMB_RUN,
    }),
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
    for (let j = 0; j < i; j++)
      most = Math.max(most, Math.hypot(marks[2 * i]! - marks[2 * j]!, marks[2 * i + 1]! - marks[2 * j + 1]!));
  }
  return most;
}
