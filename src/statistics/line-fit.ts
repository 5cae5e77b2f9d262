/**
 * A straight line through readings: mark against leg, one axis at a time.
 *
 * It uses sums about the mean of x rather than the general least squares: slope and mean are uncorrelated there, no
 * digits cancel, and the fit of two points, which most stations have, is cheap. Axes: x is usually the leg in mm, y the
 * mark in mm, so the slope is in radian; any other pair of units works alike. Uncertainties are standard uncertainties
 * (one sigma) in y's unit; x is taken as exact.
 *
 * Two uses:
 * - with `u`: weights 1/u², and the covariance follows from `u` alone. Chi-square tests the fit.
 * - without `u`: equal weights, and the scatter is estimated from the residuals, s² = Σ r² / (n − 2), as in JCGM 100
 * H.3. Two points have no residual, so their variances are Infinity.
 */

/** A line y = intercept + slope · x. */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
  /** Variances of intercept and slope, and the covariance of both. */
  readonly covariance: { readonly intercept: number; readonly slope: number; readonly both: number };
  /** Σ (r/u)² with `u`, Σ r² without. */
  readonly chiSquare: number;
  /** n − 2. */
  readonly degreesOfFreedom: number;
  /** The line's value at x and its standard uncertainty; x outside the readings extrapolates. */
  at(x: number): { readonly value: number; readonly u: number };
}

/** The result if all x are equal: no line. */
export interface NoLine {
  readonly intercept: undefined;
  readonly slope: undefined;
  readonly reason: 'no readings' | 'all readings at one x';
}

/**
 * The best line through (x, y); test `slope === undefined` for the case that there is none.
 * Throws a RangeError when the lengths differ or an uncertainty is not positive.
 * Source: JCGM 100:2008 H.3 (unweighted), ISO/TS 28037:2010 clause 6 (weighted).
 */
export function lineFit(x: ArrayLike<number>, y: ArrayLike<number>, u?: ArrayLike<number>): Line | NoLine {
  const weights = weightsOf(x, y, u);
  if (x.length === 0) return { intercept: undefined, slope: undefined, reason: 'no readings' };
  const total = weightedSum(weights, () => 1);
  const meanX = weightedSum(weights, (index) => x[index]! / total);
  const meanY = weightedSum(weights, (index) => y[index]! / total);
  const squares = weightedSum(weights, (index) => (x[index]! - meanX) ** 2);
  // Equal x leave the rounding of the mean, not exactly zero.
  if (squares <= total * (4 * Number.EPSILON * meanX) ** 2) {
    return { intercept: undefined, slope: undefined, reason: 'all readings at one x' };
  }
  const slope = weightedSum(weights, (index) => ((x[index]! - meanX) * (y[index]! - meanY)) / squares);
  const chiSquare = weightedSum(weights, (index) => (y[index]! - meanY - slope * (x[index]! - meanX)) ** 2);
  const degreesOfFreedom = x.length - 2;
  const scatter = u ? 1 : degreesOfFreedom > 0 ? chiSquare / degreesOfFreedom : Infinity;
  const varianceAt = (offset: number) => scatter * (1 / total + offset ** 2 / squares);
  return {
    intercept: meanY - slope * meanX,
    slope,
    covariance: {
      intercept: varianceAt(meanX),
      slope: scatter / squares,
      // 0 · Infinity is NaN: about the mean of x the two are uncorrelated whatever the scatter.
      both: meanX === 0 ? 0 : (-scatter * meanX) / squares,
    },
    chiSquare,
    degreesOfFreedom,
    at: (place) => ({ value: meanY + slope * (place - meanX), u: Math.sqrt(varianceAt(place - meanX)) }),
  };
}

function weightsOf(x: ArrayLike<number>, y: ArrayLike<number>, u?: ArrayLike<number>): Float64Array {
  if (y.length !== x.length || (u && u.length !== x.length)) {
    throw new RangeError(`${x.length} x, ${y.length} y, ${u?.length ?? x.length} uncertainties`);
  }
  return Float64Array.from({ length: x.length }, (_, index) => {
    const uncertainty = u?.[index] ?? 1;
    if (!(uncertainty > 0))
      throw new RangeError(`standard uncertainty ${uncertainty} of point ${index} is not positive`);
    return uncertainty ** -2;
  });
}

function weightedSum(weights: Float64Array, term: (index: number) => number): number {
  let sum = 0;
  for (let index = 0; index < weights.length; index++) sum += weights[index]! * term(index);
  return sum;
}
