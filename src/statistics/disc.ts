/**
 * The probability that a normally distributed point is within a radius of the origin.
 *
 * Every verdict uses it: the conformance probability (JCGM 106: the fraction of the measurand's distribution inside the
 * tolerance) from a mark's mean and covariance. All lengths in one unit, usually mm; the axes are any two at right
 * angles.
 *
 * Built as a sum of chords: in the ellipse's own axes the probability of a chord is a difference of two normal cdfs,
 * and only the sum over chords is numerical. Chords run along the *longer* axis: then the sum is smooth however thin
 * the ellipse, and an ellipse of zero width is a single chord.
 */
import { normalBetween, normalDensity } from './normal.ts';
import { noncentralChiSquareCdf } from './noncentral-chi-square.ts';
import { integrate } from './quadrature.ts';

/** Standard deviations beyond which less than 3e-19 of a normal distribution remains. */
const REACH = 9;
/** Offset over sigma from which the sum over chords is faster than the noncentral sum, and as accurate. */
const FAR = 300;
/** Relative difference of the axes below which the ellipse is a circle; changes the result by less than it. */
const ISOTROPIC = 1e-12;

/**
 * P(distance ≤ radius) for a point with mean at distance `offset` ≥ 0 from the origin and standard deviation `sigma` ≥
 * 0 along both axes: the Rice distribution, a noncentral chi-square with two degrees of freedom (A&S 26.3.24 and
 * 26.4.25, numbers from memory). With `sigma` 0 the result is 1 or 0; a point on the limit is inside. Relative error
 * about 1e-12, also in the tails.
 */
export function riceCdf(radius: number, offset: number, sigma: number): number {
  if (sigma === 0) return offset <= radius ? 1 : 0;
  if (radius <= 0) return Number.isNaN(offset + sigma) ? NaN : 0;
  if (offset / sigma <= FAR) return noncentralChiSquareCdf((radius / sigma) ** 2, 2, (offset / sigma) ** 2);
  return sumOfChords({ along: offset, across: 0 }, { along: sigma, across: sigma }, radius);
}

/**
 * P(|point| ≤ radius) for a point of bivariate normal distribution.
 * `covariance` is [xx, xy, yy], positive semi-definite to rounding. Absolute error below 1e-9 (1e-12 as measured).
 */
export function discProbability(
  mean: readonly [number, number],
  covariance: readonly [number, number, number],
  radius: number,
): number {
  const [xx, xy, yy] = covariance;
  const middle = (xx + yy) / 2;
  const half = Math.hypot((xx - yy) / 2, xy);
  if (half <= ISOTROPIC * middle) return riceCdf(radius, Math.hypot(...mean), Math.sqrt(middle));
  if (radius <= 0) return 0;
  const angle = Math.atan2(xy, (xx - yy) / 2) / 2;
  const longest = middle + half;
  // From the determinant: middle − half would cancel for a thin ellipse. Rounding may leave it just below zero.
  const shortest = Math.max(0, (xx * yy - xy * xy) / longest);
  const inAxes = {
    along: mean[0] * Math.cos(angle) + mean[1] * Math.sin(angle),
    across: mean[1] * Math.cos(angle) - mean[0] * Math.sin(angle),
  };
  return sumOfChords(inAxes, { along: Math.sqrt(longest), across: Math.sqrt(shortest) }, radius);
}

interface Axes {
  readonly along: number;
  readonly across: number;
}

function sumOfChords(mean: Axes, sigma: Axes, radius: number): number {
  const insideChord = (half: number) =>
    normalBetween((-half - mean.along) / sigma.along, (half - mean.along) / sigma.along);
  const halfChord = (across: number) => Math.sqrt(Math.max(0, (radius - across) * (radius + across)));
  // Thinner than the rounding of the position: a single chord.
  if (sigma.across <= Number.EPSILON * (radius + Math.abs(mean.across))) return insideChord(halfChord(mean.across));
  const low = Math.max(-radius, mean.across - REACH * sigma.across);
  const high = Math.min(radius, mean.across + REACH * sigma.across);
  if (high <= low) return 0;
  const weight = (across: number) => normalDensity((across - mean.across) / sigma.across) / sigma.across;
  if (low > -0.9 * radius && high < 0.9 * radius) {
    return Math.min(
      1,
      integrate((across) => weight(across) * insideChord(halfChord(across)), low, high),
    );
  }
  // Near the edge the chord grows as a square root; in the angle, across = radius · sin(angle), it is smooth, and the
  // integral ten times faster.
  const integrand = (angle: number) => {
    const half = radius * Math.cos(angle);
    return weight(radius * Math.sin(angle)) * insideChord(half) * half;
  };
  return Math.min(1, integrate(integrand, Math.asin(low / radius), Math.asin(high / radius)));
}
