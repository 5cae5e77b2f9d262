import { pnorm, qnorm } from 'lib-r-math.js';
import { describe, expect, test } from 'vitest';
import { normalBetween, normalCdf, normalCdfByTable, normalQuantile } from '../../src/statistics/index.ts';
import { range, relativeError, worstOf } from './close.ts';

/** A&S 26.2.14, the continued fraction of the upper tail, from the far end: shares nothing with the code under test. */
function tailByFraction(x: number): number {
  let fraction = x;
  for (let level = 400; level > 0; level--) fraction = x + level / fraction;
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI) / fraction;
}

/** A&S 26.2.11, a series of positive terms. */
function halfBySeries(x: number): number {
  let term = x;
  let sum = x;
  for (let odd = 3; odd < 200; odd += 2) sum += term *= (x * x) / odd;
  return (sum * Math.exp((-x * x) / 2)) / Math.sqrt(2 * Math.PI);
}

describe('normalCdf', () => {
  test('agrees with an independent library from −37.5 to 9', () =>
    expect(worstOf(range(-37.5, 9, 0.037), (x) => relativeError(normalCdf(x), pnorm(x))).error).toBeLessThan(1e-14));

  test('agrees with the series at the centre and the continued fraction in the tail', () => {
    expect(worstOf(range(0.01, 4, 0.03), (x) => relativeError(normalCdf(x), 0.5 + halfBySeries(x))).error).toBeLessThan(
      1e-14,
    );
    expect(worstOf(range(3, 20, 0.1), (x) => relativeError(normalCdf(-x), tailByFraction(x))).error).toBeLessThan(
      1e-13,
    );
  });

  test('ends', () => {
    expect([normalCdf(-Infinity), normalCdf(-40), normalCdf(0), normalCdf(40), normalCdf(Infinity)]).toEqual([
      0, 0, 0.5, 1, 1,
    ]);
    expect(normalCdf(-38)).toBeGreaterThan(0);
    expect(normalCdf(NaN)).toBeNaN();
  });
});

describe('normalBetween', () => {
  test('keeps its digits in both tails', () => {
    expect(relativeError(normalBetween(10, 11), pnorm(-10) - pnorm(-11))).toBeLessThan(1e-14);
    expect(normalBetween(-11, -10)).toBe(normalBetween(10, 11));
  });

  test('an empty interval holds nothing', () => expect(normalBetween(1, 0.5)).toBe(0));
});

describe('normalQuantile', () => {
  test('agrees with an independent library from 1e-300 to 1 − 1e-12', () => {
    const tail = range(-300, -1, 0.7).map((exponent) => 10 ** exponent);
    const cases = [...tail, ...range(0.0005, 0.9999, 0.0011), 1 - 1e-6, 1 - 1e-12];
    expect(worstOf(cases, (p) => relativeError(normalQuantile(p), qnorm(p))).error).toBeLessThan(1e-14);
  });

  test('is undone by the cdf', () =>
    expect(worstOf(range(-30, 5, 0.1), (x) => Math.abs(normalQuantile(normalCdf(x)) - x)).error).toBeLessThan(1e-9));

  test('ends', () => {
    expect([normalQuantile(0), normalQuantile(0.5), normalQuantile(1)]).toEqual([-Infinity, 0, Infinity]);
    expect([normalQuantile(-0.1), normalQuantile(1.1), normalQuantile(NaN)]).toEqual([NaN, NaN, NaN]);
  });
});

describe('normalCdfByTable', () => {
  test('agrees with an independent library', () =>
    expect(worstOf(range(-8, 8, 0.0037), (x) => Math.abs(normalCdfByTable(x) - pnorm(x))).error).toBeLessThan(2e-9));

  test('ends', () => {
    expect([-Infinity, Infinity, 6, -6].map(normalCdfByTable)).toEqual([0, 1, 1, 0]);
    expect(normalCdfByTable(NaN)).toBeNaN();
  });
});
