/**
 * How the marks of one station drift, and how likely they are to be outside after so many days.
 *
 * The model: in an interval of T days every mark moves by v·T, a steady drift of which nothing is known beforehand, and by
 * a random walk of covariance Q·T, which is what the machine's own prior says of a day (`driftTilt`). Each mark is read
 * with its uncertainty; a mark that ends one interval and begins the next is one reading. v is estimated by generalised
 * least squares of all intervals together. How large walk and readings really are is known only by a factor: the prior, worth
 * `PRIOR_FREEDOM` degrees of freedom, and the residuals decide it, so that what is foretold has Student's distribution
 * (linear model with a conjugate prior of its variance: A. Gelman et al., Bayesian Data Analysis, chapter 14; from memory).
 * With no walk, no prior and one axis v is the line through the origin with weights 1/u².
 *
 * mm, days; vectors as right, up, right, up … of the places.
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
} from '../statistics/index.ts';

/** The same object is the same reading. */
export interface ReadMark {
  readonly right: number;
  readonly up: number;
  readonly u: number;
}

/** By place, as indexes; places that were not shot both times are absent. */
export interface Interval {
  readonly days: number;
  readonly moved: ReadonlyMap<number, { readonly from: ReadMark; readonly to: ReadMark }>;
}

export interface Trend {
  /** mm a day. */
  readonly rate: Float64Array;
  /** Of the rate, `scale` in it. */
  readonly covariance: Matrix;
  /** By what the variances of walk and readings are to be multiplied, and with how many degrees of freedom that is known. */
  readonly scale: number;
  readonly freedom: number;
  /** Rate by reading: its covariance with the places' last marks, `scale` not in it. */
  readonly shared: Matrix;
  readonly chiSquare: number;
}

/** The prior drift is good to a third: ½ · (1/3)⁻² (JCGM 100:2008, G.4.2). */
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

/** @param last the marks from which it goes on; undefined where the intervals do not give every place a rate */
export function trend(
  intervals: readonly Interval[],
  wander: Matrix,
  last: readonly ReadMark[],
  priorFreedom = PRIOR_FREEDOM,
): Trend | undefined {
  const rows = intervals.flatMap(({ days, moved }, interval) =>
    [...moved].flatMap(([place, { from, to }]) =>
      (['right', 'up'] as const).map((axis, k): Row => ({ interval, days, index: 2 * place + k, axis, from, to })),
    ),
  );
  const count = wander.rows;
  const noise = filled(rows.length, rows.length, (i, k) => covarianceOf(rows[i]!, rows[k]!, wander));
  const design = filled(rows.length, count, (i, k) => (rows[i]!.index === k ? rows[i]!.days : 0));
  const weighed = solveSymmetric(noise, design);
  const covariance = weighed && invertSymmetric(multiply(transpose(design), weighed));
  if (!weighed || !covariance) return undefined;
  const gain = multiply(covariance, transpose(weighed));
  const observed = filled(rows.length, 1, (i) => rows[i]!.to[rows[i]!.axis] - rows[i]!.from[rows[i]!.axis]);
  const rate = multiply(gain, observed).data;
  const residuals = filled(rows.length, 1, (i) => observed.data[i]! - rows[i]!.days * rate[rows[i]!.index]!);
  const chiSquare = solveSymmetric(noise, residuals)!.data.reduce((sum, one, i) => sum + one * residuals.data[i]!, 0);
  const freedom = priorFreedom + rows.length - count;
  const scale = (priorFreedom + chiSquare) / freedom;
  const seen = filled(rows.length, count, (i, k) => (rows[i]!.index === k ? shareOf(rows[i]!, last[k >> 1]!) : 0));
  return { rate, covariance: scaled(covariance, scale), scale, freedom, shared: multiply(gain, seen), chiSquare };
}

/** Readings of one axis that two intervals have in common, and the walk of one interval. */
function covarianceOf(one: Row, other: Row, wander: Matrix): number {
  const walk = one.interval === other.interval ? one.days * wander.data[one.index * wander.columns + other.index]! : 0;
  if (one.index !== other.index) return walk;
  return walk + shareOf(one, other.to) - shareOf(one, other.from);
}

/** mm²: the covariance of a drift with one of its readings. */
function shareOf({ from, to }: Row, mark: ReadMark): number {
  return mark === to ? mark.u ** 2 : mark === from ? -(mark.u ** 2) : 0;
}

/** So many equally probable sizes of the variances stand for all of them. */
const SIZES = 8;

/**
 * The chance that at least one mark is farther from the middle than `limit` mm, so many days after `last` was read. To 0.005
 * of what draws give.
 */
export function chanceOutside(
  of: Trend,
  wander: Matrix,
  last: readonly ReadMark[],
  limit: number,
  days: number,
): number {
  return 1 - chancesWithin(of, wander, last, [limit], days)[0]!;
}

/** The chance that all marks are within, for each of the limits: little more work than for one. */
export function chancesWithin(
  of: Trend,
  wander: Matrix,
  last: readonly ReadMark[],
  limits: readonly number[],
  days: number,
): number[] {
  const { rate, scale, freedom } = of;
  const mean = Float64Array.from(rate, (by, k) => last[k >> 1]![k % 2 === 0 ? 'right' : 'up'] + by * days);
  const spread = filled(rate.length, rate.length, (i, k) => {
    const at = i * rate.length + k;
    const read = i === k ? scale * last[i >> 1]!.u ** 2 : 0;
    const shared = scale * days * (of.shared.data[at]! + of.shared.data[k * rate.length + i]!);
    return read + shared + days ** 2 * of.covariance.data[at]! + scale * days * wander.data[at]!;
  });
  const groups = limits.map((limit) => last.map((_, one) => ({ one, inverseLimit: 1 / limit })));
  const sizes = Array.from({ length: SIZES }, (_, k) => freedom / chiSquareQuantile((k + 0.5) / SIZES, freedom));
  const within = sizes.map((size) => distancesWithin(mean, scaled(spread, size), groups).each);
  return limits.map((_, group) => within.reduce((sum, each) => sum + each[group]!, 0) / SIZES);
}

function filled(rows: number, columns: number, entry: (row: number, column: number) => number): Matrix {
  const made = matrix(rows, columns);
  for (let i = 0; i < rows; i++) for (let k = 0; k < columns; k++) made.data[i * columns + k] = entry(i, k);
  return made;
}

function scaled(of: Matrix, by: number): Matrix {
  return matrix(
    of.rows,
    of.columns,
    of.data.map((entry) => entry * by),
  );
}
