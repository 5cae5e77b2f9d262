import { pchisq } from 'lib-r-math.js';
import { describe, expect, test } from 'vitest';
import { chiSquareCdf, noncentralChiSquareCdf, normalBetween } from '../../src/statistics/index.ts';
import { pairs, relativeError, worstOf } from './close.ts';

const freedoms = [0.5, 1, 2, 3, 4, 7, 10, 15.3, 64];
const noncentralities = [1e-30, 1e-9, 1e-3, 0.1, 1, 5, 20, 80, 300, 1000];
const probabilities = [1e-12, 1e-4, 0.01, 0.1, 0.3, 0.5, 0.8, 1, 1.2, 1.5, 2, 4];

describe('noncentralChiSquareCdf', () => {
  test('agrees with an independent library', () => {
    const cases = pairs(pairs(freedoms, noncentralities), probabilities)
      .map(([[df, noncentrality], share]) => ({ df, noncentrality, x: (df + noncentrality) * share }))
      // Beyond a thousand terms, in the upper tail, the library stops short (0.953 for 1 − 4e-13 at x 1504.5, df 3, λ
      // 1000).
      .filter(({ x, noncentrality }) => !(noncentrality === 1000 && x > 1200));
    const error = worstOf(cases, ({ x, df, noncentrality }) =>
      relativeError(noncentralChiSquareCdf(x, df, noncentrality), pchisq(x, df, noncentrality)),
    );
    expect(error.error, JSON.stringify(error.at)).toBeLessThan(1e-12);
  });

  test('one degree of freedom is a shifted normal, also where the library stops short', () => {
    const cases = pairs([0, 0.5, 3, 31, 400, 5000], [-6, -2, 0, 0.4, 2, 6, 9]).filter(([mean, z]) => mean + z > 0);
    const error = worstOf(cases, ([mean, z]) =>
      relativeError(noncentralChiSquareCdf((mean + z) ** 2, 1, mean * mean), normalBetween(-2 * mean - z, z)),
    );
    // The argument itself, (mean + z)², is rounded: its error grows with mean and the steepness of the tail.
    expect(error.error, JSON.stringify(error.at)).toBeLessThan(1e-11);
  });

  test('without noncentrality it is the central one, and continuous there', () => {
    for (const x of [1e-5, 1, 30]) {
      expect(noncentralChiSquareCdf(x, 3, 0)).toBe(chiSquareCdf(x, 3));
      expect(relativeError(noncentralChiSquareCdf(x, 3, 1e-14), chiSquareCdf(x, 3))).toBeLessThan(1e-13);
    }
  });

  test('very near the origin only the central part counts: e^(−λ/2) · x/2', () => {
    for (const x of [1e-17, 1e-40, 1e-200])
      expect(relativeError(noncentralChiSquareCdf(x, 2, 10), (Math.exp(-5) * x) / 2)).toBeLessThan(1e-13);
  });

  test('far ends are 0 or 1, not NaN', () => {
    expect([0, -1, 1e-300, Infinity].map((x) => noncentralChiSquareCdf(x, 2, 1e4))).toEqual([0, 0, 0, 1]);
    expect(noncentralChiSquareCdf(1e300, 2, 1e4)).toBeCloseTo(1, 13);
    expect(noncentralChiSquareCdf(1, 2, 1e6)).toBe(0);
  });

  test('what has no answer is NaN', () =>
    expect([
      noncentralChiSquareCdf(NaN, 2, 1),
      noncentralChiSquareCdf(1, 0, 1),
      noncentralChiSquareCdf(1, 2, -1),
    ]).toEqual([NaN, NaN, NaN]));
});
