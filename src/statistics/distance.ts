/**
 * The distance in the plane between two uncertain points, or of one from the origin, compared with its limit.
 *
 * The points are one vector x, y, x, y … of normal distribution: its mean, and its covariance (positive semi-definite
 * to rounding). All in one unit.
 */
import { discProbability } from './disc.ts';
import type { Matrix } from './matrix.ts';

/** |point `one` − point `other`| · `inverseLimit` ≤ 1; without `other` it is the distance from the origin. */
export interface Distance {
  readonly one: number;
  readonly other?: number;
  /** The reciprocal of the limit. */
  readonly inverseLimit: number;
}

/** The difference of two points: its mean, and its covariance as [xx, xy, yy]. */
export interface Difference {
  readonly mean: readonly [number, number];
  readonly covariance: readonly [number, number, number];
}

/** The difference of the two points of a distance. */
export function difference({ one, other }: Distance, mean: Float64Array, { data, columns }: Matrix): Difference {
  const part = (axis: number) => mean[2 * one + axis]! - (other === undefined ? 0 : mean[2 * other + axis]!);
  const entry = (a: number, b: number) => {
    const [i, k] = [2 * one + a, 2 * one + b];
    if (other === undefined) return data[i * columns + k]!;
    const [m, n] = [2 * other + a, 2 * other + b];
    return data[i * columns + k]! + data[m * columns + n]! - data[i * columns + n]! - data[m * columns + k]!;
  };
  return { mean: [part(0), part(1)], covariance: [entry(0, 0), entry(0, 1), entry(1, 1)] };
}

/** Standard deviations from its limit at which a distance counts as decided: less than one chance in a million. */
const CERTAIN_SIGMAS = 5;

/** 1 or 0 if the limit is certainly met, or certainly not. */
export function certainOutcome(
  { inverseLimit }: Distance,
  { mean, covariance: [xx, , yy] }: Difference,
): 0 | 1 | undefined {
  const margin = 1 / inverseLimit - Math.hypot(...mean);
  const reach = CERTAIN_SIGMAS * Math.sqrt(Math.max(0, xx + yy));
  if (margin < -reach) return 0;
  return margin > reach ? 1 : undefined;
}

/** The smallest of the probabilities that each distance is within its limit; 1 without distances. */
export function smallestProbability(distances: readonly Distance[], mean: Float64Array, covariance: Matrix): number {
  const open = distances.map((distance) => {
    const separation = difference(distance, mean, covariance);
    const certain = certainOutcome(distance, separation);
    return { distance, separation, certain, least: certain ?? leastProbability(distance, separation) };
  });
  let smallest = 1;
  for (const { distance, separation, certain, least } of open.sort((one, other) => one.least - other.least)) {
    if (least >= smallest) break;
    smallest = Math.min(
      smallest,
      certain ?? discProbability(separation.mean, separation.covariance, 1 / distance.inverseLimit),
    );
  }
  return smallest;
}

/**
 * A lower bound of the probability: as if the point scattered in all directions as in its longest axis. It is 0 outside
 * the limit. P(|point| > r) ≤ P(|scatter| > r − |mean|) = exp(−(r − |mean|)²/(2σ²)).
 */
function leastProbability({ inverseLimit }: Distance, { mean, covariance: [xx, xy, yy] }: Difference): number {
  const margin = 1 / inverseLimit - Math.hypot(...mean);
  const longest = (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
  return margin <= 0 ? 0 : 1 - Math.exp(-(margin * margin) / (2 * longest));
}
