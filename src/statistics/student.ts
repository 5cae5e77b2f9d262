/**
 * Quantiles of Student's t distribution: coverage factors if the scatter was estimated from few readings.
 *
 * The incomplete beta function is used once for the tail and once for the centre, so that neither p = 1e-12 nor p = 0.5
 * + 1e-12 loses digits. `df` may be any positive real number, as the Welch–Satterthwaite formula (JCGM 100 G.4) gives
 * it; Infinity is the normal distribution.
 */
import { stirlingRemainder } from './incomplete-gamma.ts';
import { normalQuantile } from './normal.ts';
import { type Tail, solveInLogarithms } from './solve-in-logarithms.ts';

/** From here on a normal quantile with its first correction in 1/df is exact to a double. */
const NEARLY_NORMAL = 1e8;

/** t with P(T ≤ t) = p; ∓Infinity at p = 0 and 1, NaN outside or for df ≤ 0. Relative error about 1e-13. */
export function studentQuantile(p: number, df: number): number {
  if (!(p >= 0 && p <= 1 && df > 0)) return NaN;
  const normal = normalQuantile(p);
  if (p === 0.5 || !Number.isFinite(normal)) return normal;
  // Cornish–Fisher, A&S 26.7.5; its next term is of order 1/df².
  if (df > NEARLY_NORMAL) return normal + (normal ** 3 + normal) / (4 * df);
  const fromMiddle = Math.abs(p - 0.5);
  const size =
    fromMiddle < 0.25
      ? solveInLogarithms(middlePart(df), fromMiddle, Math.abs(normal))
      : solveInLogarithms(upperTail(df), Math.min(p, 1 - p), Math.abs(normal));
  return p < 0.5 ? -size : size;
}

/** P(0 < T ≤ t). */
function middlePart(df: number): Tail {
  return (t) => {
    const { near, far } = fractions(t, df);
    return { probability: incompleteBeta(0.5, df / 2, near, far) / 2, steepness: steepness(df, near, far) };
  };
}

/** P(T > t) = ½ I(ν/2, ½) at 1/(1 + t²/ν): A&S 26.7.1 with 26.5.27 (numbers from memory). */
function upperTail(df: number): Tail {
  return (t) => {
    const { near, far } = fractions(t, df);
    return { probability: incompleteBeta(df / 2, 0.5, far, near) / 2, steepness: -steepness(df, near, far) };
  };
}

/** A number between 0 and 1, with its logarithm, which is exact even if the number is too small for a double. */
interface Fraction {
  readonly x: number;
  readonly logarithm: number;
}

/** The two parts of 1 = (t²/ν)/(1 + t²/ν) + 1/(1 + t²/ν); both are computed, because the difference from 1 cancels. */
function fractions(t: number, df: number): { readonly near: Fraction; readonly far: Fraction } {
  const ratio = t / Math.sqrt(df);
  const square = ratio * ratio;
  // Above 1e8 the 1 is lost, and above 1e154 the square overflows; heavy tails reach that far.
  const logSum = ratio > 1e8 ? 2 * Math.log(ratio) : Math.log1p(square);
  return {
    near: { x: square === Infinity ? 1 : square / (1 + square), logarithm: 2 * Math.log(ratio) - logSum },
    far: { x: 1 / (1 + square), logarithm: -logSum },
  };
}

/** t times the density: Γ((ν+1)/2) / (√π Γ(ν/2)) · t/√ν · (1 + t²/ν)^(−(ν+1)/2), A&S 26.7.1. */
function steepness(df: number, near: Fraction, far: Fraction): number {
  return (gammaRatio(df / 2) / Math.sqrt(Math.PI)) * Math.exp((df * far.logarithm + near.logarithm) / 2);
}

/** Γ(z + ½) / Γ(z), by Stirling for z ≥ 16 and the recurrence below. */
function gammaRatio(z: number): number {
  let factor = 1;
  while (z < 16) {
    factor *= z / (z + 0.5);
    z++;
  }
  const logarithm = z * Math.log1p(0.5 / z) - 0.5 + stirlingRemainder(z + 0.5) - stirlingRemainder(z);
  return factor * Math.sqrt(z) * Math.exp(logarithm);
}

/**
 * I_x(a, b) where one of a and b is ½, and `complement` is 1 − x. Continued fraction A&S 26.5.8, on the side of the
 * mean where it converges quickly.
 */
function incompleteBeta(a: number, b: number, fraction: Fraction, complement: Fraction): number {
  if (fraction.x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(b, a, complement, fraction);
  // 1/B(a, ½) = Γ(a + ½) / (Γ(a) √π), symmetric in a and b.
  const scale = gammaRatio(a === 0.5 ? b : a) / Math.sqrt(Math.PI);
  return (scale * Math.exp(a * fraction.logarithm + b * complement.logarithm) * betaFraction(a, b, fraction.x)) / a;
}

/** Lentz's evaluation, two levels per iteration. */
function betaFraction(a: number, b: number, x: number): number {
  let above = 1;
  let below = 1 / (1 - ((a + b) * x) / (a + 1));
  let value = below;
  for (let level = 1; level < 100_000; level++) {
    const even = (level * (b - level) * x) / ((a + 2 * level - 1) * (a + 2 * level));
    below = 1 / (1 + even * below);
    above = 1 + even / above;
    value *= below * above;
    const odd = (-(a + level) * (a + b + level) * x) / ((a + 2 * level) * (a + 2 * level + 1));
    below = 1 / (1 + odd * below);
    above = 1 + odd / above;
    const change = below * above;
    value *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return value;
}
