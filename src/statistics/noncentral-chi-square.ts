/**
 * The noncentral chi-square distribution: the squared distance of a point from the origin if its mean is not at the
 * origin.
 *
 * It is the Poisson mixture of central distributions, summed from the far end *downwards*: all terms are positive and
 * both recurrences are stable in that direction, so the lower tail keeps its relative accuracy down to the smallest
 * doubles. The number of terms grows as the square root of the noncentrality; for a very large one see `disc.ts`.
 * Arguments without unit; the noncentrality is the squared distance of the mean over sigma². Source: A&S 26.4.25.
 */
import { gammaTerm, lowerGamma } from './incomplete-gamma.ts';

/** P(X ≤ x) with `df` > 0 degrees of freedom and `noncentrality` ≥ 0; NaN for others. Relative error about 1e-13. */
export function noncentralChiSquareCdf(x: number, df: number, noncentrality: number): number {
  if (!(df > 0 && noncentrality >= 0) || Number.isNaN(x)) return NaN;
  if (x <= 0) return 0;
  if (x === Infinity) return 1;
  const mean = noncentrality / 2;
  const half = x / 2;
  const shape = df / 2;
  // One term only: the general sum would start at weights below the smallest double.
  if (mean * half < 1e-17) return Math.exp(-mean) * lowerGamma(shape, half);
  const first = lastTermThatCounts(mean, half);
  let weight = gammaTerm(first, mean);
  let central = lowerGamma(shape + first, half);
  let step = gammaTerm(shape + first, half);
  let sum = 0;
  for (let index = first; ; index--) {
    const term = weight * central;
    sum += term;
    // The terms rise to one peak and then fall, faster and faster.
    if (index === 0 || term < sum * 1e-18) break;
    weight *= index / mean;
    // P(a, x) = P(a + 1, x) + x^a e^−x / Γ(a + 1).
    step *= (shape + index) / half;
    central += step;
  }
  return Math.min(1, sum);
}

/**
 * Terms past the peak fall at least as fast as a Poisson tail of mean m = min(λ/2, √(λ/2 · x/2)), because
 * P(a + 1, x)/P(a, x) ≤ x/(a + 1); ten of its standard deviations, and nine terms for small means, leave less than
 * 1e-16.
 */
function lastTermThatCounts(mean: number, half: number): number {
  const peak = Math.min(mean, Math.sqrt(mean * half));
  return Math.ceil(peak + 10 * Math.sqrt(peak) + 9);
}
