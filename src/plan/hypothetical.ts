/** The estimate after hypothetical shots, each at its predicted mark: the same mean with a smaller covariance. */
import { pathTo, type ShotRequest } from '../model/index.ts';
import {
  estimateOf,
  predict,
  update,
  READING,
  type Estimate,
  type State,
  type LoggedReading,
} from '../estimate/index.ts';
import { probabilityAfter, type Demand, type StationVerdict } from '../verdict/index.ts';
import { NO_MOVE, legsOf, othersAt, queryAt } from '../machine/index.ts';

/** @param times number of shots of each */
export function afterShots(
  state: State,
  estimate: Estimate,
  { station }: Pick<StationVerdict, 'station'>,
  shots: readonly ShotRequest[],
  times = 1,
): Estimate {
  const { resolution, placing } = state.limits?.reading ?? READING;
  const u = Math.sqrt((resolution ** 2 / 12 + placing ** 2) / times);
  const readings = shots.flatMap((shot, k): LoggedReading[] => {
    const carriages = legsOf(station, shot);
    const height = shot.height ?? 0;
    const predicted = predict(estimate, [queryAt(station, carriages, height)], NO_MOVE);
    if (!predicted) return [];
    const [right, up] = [predicted.mean[0]!, predicted.mean[1]!];
    return [
      {
        station: station.index,
        order: state.order,
        at: shot.at,
        with: othersAt(station, carriages),
        carriages,
        height,
        right,
        up,
        u,
        none: false,
        count: 1,
        cell: -1,
        path: pathTo(k),
      },
    ];
  });
  return estimateOf(update(estimate.distribution, readings), estimate.hands);
}

/** Maximum repeats of one place. */
export const MOST_REPEATS = 8;

/**
 * The number of repeats of these shots after which the limits are shown to be met, if the marks stay where they are;
 * undefined if that takes more than the maximum.
 */
export function shotsNeeded(
  state: State,
  estimate: Estimate,
  verdict: StationVerdict & { readonly demand: Demand },
  shots: readonly ShotRequest[],
): number | undefined {
  const required = state.limits?.confidence ?? 1;
  const isShown = (times: number) =>
    probabilityAfter(verdict.demand, afterShots(state, estimate, verdict, shots, times), NO_MOVE) >= required;
  if (shots.length === 0 || !isShown(MOST_REPEATS)) return undefined;
  return Array.from({ length: MOST_REPEATS }, (_, k) => k + 1).find(isShown);
}
