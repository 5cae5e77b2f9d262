import { pchisq, qchisq } from 'lib-r-math.js';
import { describe, expect, test } from 'vitest';
import { chiSquareCdf, chiSquareQuantile, chiSquareUpper, normalCdf } from '../../src/statistics/index.ts';
import { pairs, relativeError, worstOf } from './close.ts';

const freedoms = [0.5, 1, 2, 3, 4, 7, 10, 15.3, 31, 32, 33, 64, 100, 1000, 1e5];
const probabilities = [1e-6, 1e-3, 0.01, 0.1, 0.3, 0.5, 0.8, 0.9, 0.99, 1, 1.01, 1.1, 1.3, 2, 3, 10, 30, 100];
const grid = pairs(freedoms, probabilities).map(([df, share]) => ({ df, x: df * share }));
/** Below this the library's own denormal numbers lose digits. */
const SMALLEST = 1e-290;

describe('chi-square', () => {
  test('cdf agrees with an independent library, into the far lower tail', () => {
    const cases = grid.filter(({ x, df }) => pchisq(x, df) > SMALLEST);
    expect(cases.length).toBeGreaterThan(200);
    expect(worstOf(cases, ({ x, df }) => relativeError(chiSquareCdf(x, df), pchisq(x, df))).error).toBeLessThan(1e-12);
  });

  test('upper tail agrees with an independent library, far out', () => {
    const cases = grid.filter(({ x, df }) => pchisq(x, df, undefined, false) > SMALLEST);
    expect(cases.length).toBeGreaterThan(200);
    expect(
      worstOf(cases, ({ x, df }) => relativeError(chiSquareUpper(x, df), pchisq(x, df, undefined, false))).error,
    ).toBeLessThan(1e-12);
  });

  test('two degrees of freedom are an exponential, one is a squared normal', () => {
    for (const x of [1e-9, 0.3, 1, 5.99, 40, 600]) {
      expect(relativeError(chiSquareUpper(x, 2), Math.exp(-x / 2))).toBeLessThan(1e-13);
      expect(relativeError(chiSquareUpper(x, 1), 2 * normalCdf(-Math.sqrt(x)))).toBeLessThan(1e-13);
    }
  });

  test('quantile agrees with an independent library', () => {
    const probabilities = [1e-100, 1e-12, 1e-6, 0.001, 0.01, 0.05, 0.3, 0.5, 0.7, 0.95, 0.99, 0.999, 1 - 1e-9];
    const cases = pairs(probabilities, freedoms);
    expect(worstOf(cases, ([p, df]) => relativeError(chiSquareQuantile(p, df), qchisq(p, df))).error).toBeLessThan(
      1e-12,
    );
  });

  test('ends are numbers', () => {
    expect([chiSquareCdf(0, 3), chiSquareCdf(-1, 3), chiSquareCdf(Infinity, 3), chiSquareCdf(1e300, 3)]).toEqual([
      0, 0, 1, 1,
    ]);
    expect([chiSquareUpper(0, 3), chiSquareUpper(Infinity, 3), chiSquareUpper(1e300, 1e6)]).toEqual([1, 0, 0]);
    expect([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3), chiSquareQuantile(1e-200, 0.1)]).toEqual([
      0,
      Infinity,
      0,
    ]);
  });

  test('what has no answer is NaN', () => {
    expect([chiSquareCdf(NaN, 1), chiSquareCdf(1, 0), chiSquareUpper(1, -1), chiSquareQuantile(1.1, 1)]).toEqual([
      NaN,
      NaN,
      NaN,
      NaN,
    ]);
  });
});
