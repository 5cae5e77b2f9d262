/**
 * Intervals that show drift: the marks of a station as an earlier visit left them and as the next one found them, with
 * nothing touched in between that affects them. The fold collects them; nothing is estimated here.
 */
import { daysBetween } from '../model/index.ts';
import { sameCarriages, items, type Station } from '../machine/index.ts';
import { freshReadings, lastMoved, type State } from './state.ts';
import type { Round } from './logged-reading.ts';
import type { LeftMarks } from './intervals.ts';

/** Maximum number of visits: older ones add little. */
const MOST_VISITS = 24;

/** By station: the marks that the visit ending here leaves, or those of earlier visits if nothing moved in this one. */
export function marksLeft(state: State): ReadonlyMap<string, LeftMarks> {
  return new Map(
    (state.system?.stations ?? []).flatMap((station): [string, LeftMarks][] => {
      const leftMarks = marksLeftOn(state, station);
      return leftMarks ? [[station.name, leftMarks]] : [];
    }),
  );
}

function marksLeftOn(state: State, station: Station): LeftMarks | undefined {
  const readings = freshReadings(state, station);
  const date = state.rounds.get(station.name)?.date;
  if (readings.length > 0) return date === undefined ? undefined : { system: state.system!, readings, date };
  return lastMoved(state, station).order === state.session ? state.leftMarks.get(station.name) : undefined;
}

/** The intervals that this visit ends, with the station's first round in it as far as it was read. */
export function withInterval(
  state: State,
  { name }: Station,
  { since, readings, date }: Round,
): State['currentIntervals'] {
  const leftMarks = state.leftMarks.get(name);
  if (!leftMarks || leftMarks.system !== state.system || since !== state.session || date === undefined)
    return state.currentIntervals;
  const days = daysBetween(leftMarks.date, date);
  // Once a place is in both it stays so: earlier cells are searched only until then.
  const isShared =
    state.currentIntervals.has(name) ||
    items(readings).some((now) => leftMarks.readings.some((then) => sameCarriages(then.carriages, now.carriages)));
  return days > 0 && isShared
    ? new Map(state.currentIntervals).set(name, {
        system: leftMarks.system,
        days,
        from: leftMarks.readings,
        to: readings,
      })
    : state.currentIntervals;
}

/** Intervals by visit, this one included. */
export function allIntervals({ pastIntervals, currentIntervals }: State): State['pastIntervals'] {
  return currentIntervals.size === 0
    ? pastIntervals
    : [...pastIntervals, [...currentIntervals.values()]].slice(-MOST_VISITS);
}
