/**
 * The drift of one station's marks, and the probability of being out of limits after a number of days.
 *
 * The model: in an interval of T days every mark moves by v·T, a steady drift with a flat prior, and by a random walk
 * with covariance Q·T from the machine's prior for a day (`driftTilt`). Each mark is read with its uncertainty; a mark
 * that ends one interval and begins the next is one reading. v is estimated by generalised least squares over all
 * intervals. Walk and reading variances are known only up to a common factor: the prior, worth `PRIOR_FREEDOM` degrees
 * of freedom, and the residuals estimate it, so that the predictive distribution is Student's (linear model with a
 * conjugate prior of its variance: A. Gelman et al., Bayesian Data Analysis, chapter 14; from memory). Without walk and
 * prior, on one axis, v is the line through the origin with weights 1/u².
 *
 * Units: mm, days; vectors as right, up, right, up … of the places.
 */
import {
  chiSquareQuantile,
  distancesWithin,
  invertSymmetric,
  matrix,
  multiply,
  solveSymmetric,
  transpose,
  type Matrix,
  entry,
  fromEntries,
} from '../statistics/index.ts';

/** The object's identity is that of the reading. */
export interface ReadMark {
  readonly right: number;
  readonly up: number;
  readonly u: number;
}

/** By the index of the place; places not shot both times are absent. */
export interface Interval {
  readonly days: number;
  readonly moved: ReadonlyMap<number, { readonly from: ReadMark; readonly to: ReadMark }>;
}

export interface Trend {
  /** mm a day. */
  readonly rate: Float64Array;
  /** Of the rate, multiplied by `scale`. */
  readonly covariance: Matrix;
  /** Factor of the walk and reading variances, and its degrees of freedom. */
  readonly scale: number;
  readonly freedom: number;
  /** Covariance of the rate (rows) with the readings of the last marks (columns), without `scale`. */
  readonly shared: Matrix;
  readonly chiSquare: number;
}

/** The prior drift has a relative uncertainty of 1/3: ½ · (1/3)⁻² degrees of freedom (JCGM 100:2008, G.4.2). */
const PRIOR_FREEDOM = 4.5;

interface Row {
  readonly interval: number;
  readonly days: number;
  /** In a vector of all places. */
  readonly index: number;
  readonly axis: 'right' | 'up';
  readonly from: ReadMark;
  readonly to: ReadMark;
}

/**
 * @param last the marks at the start of the forecast
 * @returns undefined if the intervals do not determine a rate for every place
 */
export function trend(
  intervals: readonly Interval[],
  processNoise: Matrix,
  last: readonly ReadMark[],
  priorFreedom = PRIOR_FREEDOM,
): Trend | undefined {
  const rows = intervals.flatMap(({ days, moved }, interval) =>
    [...moved].flatMap(([place, { from, to }]) =>
      (['right', 'up'] as const).map((axis, k): Row => ({ interval, days, index: 2 * place + k, axis, from, to })),
    ),
  );
  const count = processNoise.rows;
  const noise = fromEntries(rows.length, rows.length, (i, k) => covarianceOf(rows[i]!, rows[k]!, processNoise));
  const design = fromEntries(rows.length, count, (i, k) => (rows[i]!.index === k ? rows[i]!.days : 0));
  const weighed = solveSymmetric(noise, design);
  const covariance = weighed && invertSymmetric(multiply(transpose(design), weighed));
  if (!weighed || !covariance) return undefined;
  const gain = multiply(covariance, transpose(weighed));
  const observed = fromEntries(rows.length, 1, (i) => rows[i]!.to[rows[i]!.axis] - rows[i]!.from[rows[i]!.axis]);
  const rate = multiply(gain, observed).data;
  const residuals = fromEntries(rows.length, 1, (i) => observed.data[i]! - rows[i]!.days * rate[rows[i]!.index]!);
  const chiSquare = solveSymmetric(noise, residuals)!.data.reduce((sum, one, i) => sum + one * residuals.data[i]!, 0);
  const freedom = priorFreedom + rows.length - count;
  const scale = (priorFreedom + chiSquare) / freedom;
  const withLast = fromEntries(rows.length, count, (i, k) =>
    rows[i]!.index === k ? noiseShare(rows[i]!, last[k >> 1]!) : 0,
  );
  return { rate, covariance: scaled(covariance, scale), scale, freedom, shared: multiply(gain, withLast), chiSquare };
}

/** From the random walk within one interval, and from readings that two intervals have in common. */
function covarianceOf(one: Row, other: Row, processNoise: Matrix): number {
  const walk = one.interval === other.interval ? one.days * entry(processNoise, one.index, other.index) : 0;
  if (one.index !== other.index) return walk;
  return walk + noiseShare(one, other.to) - noiseShare(one, other.from);
}

/** mm²: the covariance of a drift with one of its readings. */
function noiseShare({ from, to }: Row, mark: ReadMark): number {
  return mark === to ? mark.u ** 2 : mark === from ? -(mark.u ** 2) : 0;
}

/** Number of equally probable factors that represent the distribution of the variances. */
const SIZES = 8;

/**
 * The probability that at least one mark is farther from the centre than `limit` mm, `days` after `last` was read.
 * Within 0.005 of Monte Carlo results.
 */
export function chanceOutside(
  of: Trend,
  processNoise: Matrix,
  last: readonly ReadMark[],
  limit: number,
  days: number,
): number {
  return 1 - chancesWithin(of, processNoise, last, [limit], days)[0]!;
}

/** The probability that all marks are within, for each of the limits: little more work than for one. */
export function chancesWithin(
  of: Trend,
  processNoise: Matrix,
  last: readonly ReadMark[],
  limits: readonly number[],
  days: number,
): number[] {
  const { rate, scale, freedom } = of;
  const mean = Float64Array.from(rate, (by, k) => last[k >> 1]![k % 2 === 0 ? 'right' : 'up'] + by * days);
  const covariance = fromEntries(rate.length, rate.length, (i, k) => {
    const read = i === k ? scale * last[i >> 1]!.u ** 2 : 0;
    const shared = scale * days * (entry(of.shared, i, k) + entry(of.shared, k, i));
    return read + shared + days ** 2 * entry(of.covariance, i, k) + scale * days * entry(processNoise, i, k);
  });
  const groups = limits.map((limit) => last.map((_, one) => ({ one, inverseLimit: 1 / limit })));
  const sizes = Array.from({ length: SIZES }, (_, k) => freedom / chiSquareQuantile((k + 0.5) / SIZES, freedom));
  const within = sizes.map((size) => distancesWithin(mean, scaled(covariance, size), groups).each);
  return limits.map((_, group) => within.reduce((sum, each) => sum + each[group]!, 0) / SIZES);
}

function scaled(of: Matrix, by: number): Matrix {
  return matrix(
    of.rows,
    of.columns,
    of.data.map((entry) => entry * by),
  );
}
