/**
 * What a station shows of drift: its marks as an earlier visit left them and as the next one found them, with nothing
 * touched in between that could have moved them. Gathered by the fold; nothing is estimated here.
 */
import { daysBetween } from '../model/index.ts';
import { sameCarriages, items, type Station } from '../machine/index.ts';
import { freshReadings, lastMoved, type State } from './state.ts';
import type { Round } from './taken.ts';
import type { LeftMarks } from './intervals.ts';

/** More of the past says little that is new. */
const MOST_VISITS = 24;

/** What the visit that ends here leaves by station, or what earlier ones have left where nothing moved in this one either. */
export function leftBy(state: State): ReadonlyMap<string, LeftMarks> {
  return new Map(
    (state.system?.stations ?? []).flatMap((station): [string, LeftMarks][] => {
      const left = leftOn(state, station);
      return left ? [[station.name, left]] : [];
    }),
  );
}

function leftOn(state: State, station: Station): LeftMarks | undefined {
  const readings = freshReadings(state, station);
  const date = state.rounds.get(station.name)?.date;
  if (readings.length > 0) return date === undefined ? undefined : { system: state.system!, readings, date };
  return lastMoved(state, station).order === state.session ? state.left.get(station.name) : undefined;
}

/** The intervals that this visit ends, with a station's first round in it as far as it has been read. */
export function foundHere(state: State, { name }: Station, { since, readings, date }: Round): State['found'] {
  const left = state.left.get(name);
  if (!left || left.system !== state.system || since !== state.session || date === undefined) return state.found;
  const days = daysBetween(left.date, date);
  // Once a place is shared it stays so: the cells before are looked through only while none is.
  const share =
    state.found.has(name) ||
    items(readings).some((now) => left.readings.some((then) => sameCarriages(then.carriages, now.carriages)));
  return days > 0 && share
    ? new Map(state.found).set(name, { system: left.system, days, from: left.readings, to: readings })
    : state.found;
}

/** Visit by visit, this one included. */
export function watchedWith({ watched, found }: State): State['watched'] {
  return found.size === 0 ? watched : [...watched, [...found.values()]].slice(-MOST_VISITS);
}
