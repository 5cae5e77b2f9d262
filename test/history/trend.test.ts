/** The trend and its forecast, against draws of the model itself, and by hand. */
import { describe, expect, test } from 'vitest';
import { trend, type Interval, type ReadMark } from '../../src/history/trend.ts';
import { fromRows, matrix } from '../../src/statistics/index.ts';

const mark = (right: number, up: number, u = 0.25): ReadMark => ({ right, up, u });
const still = (places: number) => matrix(2 * places, 2 * places);
const between = (days: number, from: ReadMark, to: ReadMark): Interval => ({
  days,
  moved: new Map([[0, { from, to }]]),
});

describe('the rate', () => {
  test('of one axis is the line through the origin, weights 1/u² (by hand)', () => {
    const intervals = [between(10, mark(0, 0, 0.3), mark(1, 0, 0.4)), between(20, mark(0, 0, 0.6), mark(4, 0, 0.8))];
    const { rate, covariance, scale, chiSquare } = trend(intervals, still(1), [mark(0, 0)])!;
    // Σ T d/u² over Σ T²/u², u = 0.5 and 1.
    expect(rate[0]).toBeCloseTo((10 / 0.25 + 80) / (100 / 0.25 + 400), 12);
    expect(covariance.data[0]! / scale).toBeCloseTo(1 / 800, 12);
    expect(chiSquare).toBeCloseTo((1 - 1.5) ** 2 / 0.25 + (4 - 3) ** 2, 12);
  });

  test('a mark that ends one interval and begins the next cancels: only the first and the last count', () => {
    const [a, b, c] = [mark(0, 0), mark(3, 0), mark(2, 0)];
    const steady = trend([between(10, a, b), between(10, b, c)], still(1), [c])!;
    expect(steady.rate[0]).toBeCloseTo(0.1, 12);
    expect(steady.covariance.data[0]! / steady.scale).toBeCloseTo((2 * 0.25 ** 2) / 20 ** 2, 12);
  });

  test('where the walk is all, long and short intervals count by their days', () => {
    const walk = fromRows([
      [1, 0],
      [0, 1],
    ]);
    const { rate } = trend(
      [between(30, mark(0, 0, 1e-6), mark(3, 0, 1e-6)), between(10, mark(0, 0, 1e-6), mark(5, 0, 1e-6))],
      walk,
      [mark(0, 0)],
    )!;
    expect(rate[0]).toBeCloseTo(8 / 40, 9);
  });

  test('marks that scatter more than the prior widen it, marks that agree narrow it a little', () => {
    const scale = (...drifts: number[]) =>
      trend(
        drifts.map((drift) => between(10, mark(0, 0), mark(drift, 0))),
        still(1),
        [mark(0, 0)],
      )!.scale;
    expect(scale(1, 1, 1)).toBeLessThan(1);
    expect(scale(1, 1, 1)).toBeGreaterThan(0.4);
    expect(scale(5, -5, 5)).toBeGreaterThan(10);
  });
});
