/** Process noise of days without a touch: the direction of the tube and every mirror drift by a random walk. */
import { type Matrix, add } from '../statistics/index.ts';
import { estimate, predict } from './estimate.ts';
import { NO_MOVE, TUBE, queryAt, prior, station, type Move, type System } from '../machine/index.ts';
import type { State } from './state.ts';

/**
 * The process noise of some days, as a move.
 * @param variance rad² a day, of either slope: computed only when the move is used, since estimating it takes a while
 */
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
 * Covariance by which the marks of a station drift in a day, mm², in the order right, up, right, up … of the settings
 * of the carriages.
 * @param rate rad² a day of either slope; by default the prior's
 * @returns undefined without a machine or such a station, and where the beam misses
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
  return add(moved.covariance, before.covariance, -1);
}
