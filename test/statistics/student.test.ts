import { qt } from 'lib-r-math.js';
import { describe, expect, test } from 'vitest';
import { normalQuantile, studentQuantile } from '../../src/statistics/index.ts';
import { integrate } from '../../src/statistics/quadrature.ts';
import { pairs, relativeError, worstOf } from './close.ts';

/** P(T > t) with t = √ν / tan(angle): the density becomes sin(angle)^(ν−1), and no beta function is needed. */
function tailByQuadrature(t: number, df: number): number {
  const density = (angle: number) => Math.sin(angle) ** (df - 1);
  return integrate(density, 0, Math.atan2(Math.sqrt(df), t)) / integrate(density, 0, Math.PI / 2) / 2;
}

describe('studentQuantile', () => {
  test('the integrated tail beyond it is the requested probability', () => {
    const cases = pairs(
      [1, 1.5, 2, 3, 7, 15.3, 31, 64, 145.38, 1000],
      [1e-100, 1e-12, 1e-6, 0.001, 0.05, 0.2, 0.249, 0.251, 0.4, 0.499],
    );
    const error = worstOf(cases, ([df, p]) => relativeError(tailByQuadrature(-studentQuantile(p, df), df), p));
    expect(error.error, JSON.stringify(error.at)).toBeLessThan(1e-12);
  });

  test('agrees with an independent library, as far as that goes', () => {
    // The library inverts a cdf that is right to 1e-7 only, hence the width.
    const cases = pairs([1, 2, 3, 5, 10, 30], [0.005, 0.025, 0.1, 0.9, 0.975, 0.995]);
    expect(worstOf(cases, ([df, p]) => relativeError(studentQuantile(p, df), qt(p, df))).error).toBeLessThan(1e-6);
  });

  test('one and two degrees of freedom have closed forms', () => {
    for (const p of [1e-200, 1e-9, 0.01, 0.2, 0.3, 0.4999]) {
      // Cauchy: −1/tan(πp). Two degrees: (2p − 1)/√(2p(1 − p)).
      expect(relativeError(studentQuantile(p, 1), -1 / Math.tan(Math.PI * p))).toBeLessThan(1e-12);
      expect(relativeError(studentQuantile(p, 2), (2 * p - 1) / Math.sqrt(2 * p * (1 - p)))).toBeLessThan(1e-12);
    }
  });

  test('less than one degree of freedom, where the tail is very heavy', () => {
    // The density of the quadrature is singular at 0 then; its power sin(angle)^(ν−1) is integrated as u = angle^ν.
    const df = 0.5;
    const smooth = (u: number) => (Math.sin(u ** 2) / u ** 2) ** (df - 1) * 2;
    const tail = (t: number) =>
      integrate(smooth, 0, Math.sqrt(Math.atan2(Math.sqrt(df), t))) / integrate(smooth, 0, Math.sqrt(Math.PI / 2)) / 2;
    for (const p of [1e-6, 0.01, 0.2, 0.4]) expect(relativeError(tail(-studentQuantile(p, df)), p)).toBeLessThan(1e-10);
  });

  test('is odd about one half and exact near it', () => {
    expect(studentQuantile(0.5, 3.7)).toBe(0);
    expect(studentQuantile(0.25, 3.7)).toBe(-studentQuantile(0.75, 3.7));
    // Density at 0 for df 2 is 1/√8.
    expect(relativeError(studentQuantile(0.5 + 2 ** -40, 2), 2 ** -40 * Math.sqrt(8))).toBeLessThan(1e-12);
  });

  test('becomes the normal quantile, without a step where the method changes', () => {
    expect(studentQuantile(0.975, Infinity)).toBe(normalQuantile(0.975));
    expect(relativeError(studentQuantile(0.975, 1.01e8), studentQuantile(0.975, 0.99e8))).toBeLessThan(1e-9);
    expect(relativeError(studentQuantile(0.975, 1e8), normalQuantile(0.975))).toBeLessThan(2e-8);
  });

  test('beyond the largest double is Infinity, not NaN', () =>
    expect([studentQuantile(1e-300, 0.5), studentQuantile(1 - 1e-15, 0.01)]).toEqual([-Infinity, Infinity]));

  test('ends, and what has no answer', () => {
    expect([studentQuantile(0, 3), studentQuantile(1, 3)]).toEqual([-Infinity, Infinity]);
    expect([studentQuantile(-1, 3), studentQuantile(0.9, 0), studentQuantile(NaN, 3)]).toEqual([NaN, NaN, NaN]);
  });
});
