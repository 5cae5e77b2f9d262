/** What days do that nobody touches the machine: the tube and every mirror wander, by the square root of the days. */
import { matrix, type Matrix } from '../statistics/index.ts';
import { estimate, predict } from './estimate.ts';
import { NO_MOVE, TUBE, queryAt, prior, station, type Move, type System } from '../machine/index.ts';
import type { State } from './state.ts';

/** @param variance rad² a day, of either slope: asked for when the move is, since learning it takes a while */
export function processNoise({ mirrors, stations }: System, days: number, variance: () => number): Move {
  let disturbed: Move['disturbed'] | undefined;
  const each = () => {
    const by = { tilt: days * variance(), place: 0, aperture: 0 };
    return new Map([TUBE, ...mirrors.map((mirror) => stations[mirror]!.name)].map((part) => [part, by]));
  };
  return {
    ...NO_MOVE,
    get disturbed() {
      return (disturbed ??= each());
    },
  };
}

/**
 * By how much the marks of a station wander in a day: their covariance, mm², in the order right, up, right, up … of the
 * settings of the carriages. `rate` rad² a day of either slope, the prior's where it is left out. Undefined without a machine or such a station, and where the beam would miss.
 */
export function driftCovariance(
  state: State,
  name: string,
  settings: readonly Readonly<Record<string, number>>[],
  rate?: number,
): Matrix | undefined {
  const estimated = estimate(state);
  const at = estimated && station(estimated.system, name);
  if (!estimated || !at) return undefined;
  const variance = rate ?? prior(estimated.system.machine, 'driftTilt') ** 2;
  const queries = settings.map((carriages) => queryAt(at, carriages));
  const before = predict(estimated, queries, NO_MOVE);
  const moved = predict(
    estimated,
    queries,
    processNoise(estimated.system, 1, () => variance),
  );
  if (!before || !moved) return undefined;
  const { rows, columns, data } = moved.covariance;
  return matrix(
    rows,
    columns,
    data.map((entry, index) => entry - before.covariance.data[index]!),
  );
}
