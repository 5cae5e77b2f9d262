/** The uncertainty of reported power values, against draws and against numerical examples of the GUM. */
import { expect, test } from 'vitest';
import { meter, quotient, uncertain, type Repeats } from '../../src/history/meter.ts';

const PRIOR = { repeat: 0.02, placing: 0.02 };
const repeats = (...readings: number[]): Repeats => ({
  readings,
  mean: readings.reduce((sum, one) => sum + one, 0) / readings.length,
});

test('a product: relative variances add (JCGM 100:2008, 5.1.6)', () => {
  const { u, value } = uncertain(quotient(repeats(60), repeats(80)), meter([], PRIOR));
  expect(u / value).toBeCloseTo(Math.sqrt(2 * (0.02 ** 2 + 0.02 ** 2)), 12);
});

test('repeats average their scatter, and not the placing', () => {
  const of = (count: number) =>
    uncertain({ value: 80, by: new Map([[repeats(...Array<number>(count).fill(80)), 80]]) }, meter([], PRIOR)).u / 80;
  expect(of(4) ** 2).toBeCloseTo(0.02 ** 2 / 4 + 0.02 ** 2, 12);
  expect(of(1e4)).toBeCloseTo(0.02, 4);
});

test('the repeats of the whole log are pooled with the prior', () => {
  // 0.8 and 0.8 are both a hundredth off their mean: two degrees of freedom, variance 2e-4, beside eight of 4e-4.
  const { repeat, freedom } = meter([[79.2, 80.8], [39.6, 40.4], [50]], PRIOR);
  expect(freedom).toBe(10);
  expect(repeat).toBeCloseTo((8 * 4e-4 + 2 * 2e-4) / 10, 12);
});

test('a reading of zero does not affect the scatter', () =>
  expect(meter([[0, 0], [0]], PRIOR)).toEqual(meter([], PRIOR)));

test('known for good, half the 95 % interval is 1.96 standard uncertainties; by few readings it is more', () => {
  const half = (prior: typeof PRIOR) => {
    const { u, expanded } = uncertain(quotient(repeats(60), repeats(80)), meter([], prior));
    return expanded / u;
  };
  expect(half({ repeat: 1e-6, placing: 0.02 })).toBeCloseTo(1.96, 3);
  // Table G.2 of JCGM 100:2008: 2.31 for 8 degrees of freedom.
  expect(half({ repeat: 0.02, placing: 1e-6 })).toBeCloseTo(2.31, 2);
});
