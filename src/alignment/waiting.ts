/** What days do that nobody touches the machine: the tube and every mirror wander, by the square root of the days. */
import { matrix, type Matrix } from '../statistics/index.ts';
import { estimate, predict } from './estimate.ts';
import { NO_MOVE, TUBE, withDisturbance, type Move } from './move.ts';
import { queryAt } from './places.ts';
import type { State } from './state.ts';
import { prior, station, type System } from './system.ts';

export function waiting({ machine, mirrors, stations }: System, days: number): Move {
  const tilt = days * prior(machine, 'driftTilt') ** 2;
  const parts = [TUBE, ...mirrors.map((mirror) => stations[mirror]!.name)];
  return parts.reduce((move, part) => withDisturbance(move, part, { tilt, place: 0, aperture: 0 }), NO_MOVE);
}

/**
 * By how much the marks of a station wander in a day: their covariance, mm², in the order right, up, right, up … of the
 * settings of the carriages. Undefined without a machine or such a station, and where the beam would miss.
 */
export function wander(state: State, name: string, settings: readonly Readonly<Record<string, number>>[]): Matrix | undefined {
  const known = estimate(state);
  const at = known && station(known.system, name);
  if (!known || !at) return undefined;
  const queries = settings.map((carriages) => queryAt(at, carriages));
  const before = predict(known, queries, NO_MOVE);
  const after = predict(known, queries, waiting(known.system, 1));
  if (!before || !after) return undefined;
  const { rows, columns, data } = after.covariance;
  return matrix(rows, columns, data.map((entry, index) => entry - before.covariance.data[index]!));
}
