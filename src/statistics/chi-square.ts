/**
 * The chi-square distribution: tests whether residuals agree with the stated uncertainties.
 *
 * Built on the incomplete gamma functions, with lower and upper tail as separate functions, since a bad fit has an
 * upper tail of 1e-6 or less, which 1 − cdf cannot represent. `df` is the degrees of freedom, any positive real number.
 * Source: A&S 26.4.19 (relation to the incomplete gamma function).
 */
import { gammaTerm, lowerGamma, upperGamma } from './incomplete-gamma.ts';
import { normalQuantile } from './normal.ts';
import { type Tail, solveInLogarithms } from './solve-in-logarithms.ts';

/** P(X ≤ x). */
export function chiSquareCdf(x: number, df: number): number {
  return lowerGamma(df / 2, x / 2);
}

/** P(X > x), accurate where it is small. */
export function chiSquareUpper(x: number, df: number): number {
  return upperGamma(df / 2, x / 2);
}

/** x with P(X ≤ x) = p; 0 at p = 0, Infinity at p = 1, NaN outside or for df ≤ 0. */
export function chiSquareQuantile(p: number, df: number): number {
  if (!(p >= 0 && p <= 1 && df > 0)) return NaN;
  if (p === 0 || p === 1) return p === 0 ? 0 : Infinity;
  const start = startingPoint(p, df);
  // A quantile smaller than the smallest double, as for p = 1e-200 and one degree of freedom.
  if (start === 0) return 0;
  return p < 0.5 ? solveInLogarithms(lowerTail(df), p, start) : solveInLogarithms(upperTail(df), 1 - p, start);
}

function lowerTail(df: number): Tail {
  return (x) => ({ probability: chiSquareCdf(x, df), steepness: steepness(x, df) });
}

function upperTail(df: number): Tail {
  return (x) => ({ probability: chiSquareUpper(x, df), steepness: -steepness(x, df) });
}

/** x times the density: with a = df/2 and t = x/2, t^a e^−t / Γ(a) = a · gammaTerm(a, t). */
function steepness(x: number, df: number): number {
  return (df / 2) * gammaTerm(df / 2, x / 2);
}

/** Wilson and Hilferty's cube (A&S 26.4.17), or the leading power of x where that turns negative. */
function startingPoint(p: number, df: number): number {
  const variance = 2 / (9 * df);
  const cubeRoot = 1 - variance + normalQuantile(p) * Math.sqrt(variance);
  if (cubeRoot > 0.1) return df * cubeRoot ** 3;
  // P(a, t) ≈ t^a / Γ(a + 1), and gammaTerm(a, 1) = 1 / (e Γ(a + 1)).
  return 2 * (p / (Math.E * gammaTerm(df / 2, 1))) ** (2 / df);
}
