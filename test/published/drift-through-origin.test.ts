/**
 * The rate of a drift without process noise, read on one axis: NIST StRD NoInt1, a line through the origin, certified.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { trend } from '../../src/history/trend.ts';
import { matrix } from '../../src/statistics/index.ts';

const rows = readFileSync(new URL('./data/NoInt1.dat', import.meta.url), 'utf8')
  .split(/\r?\n/)
  .slice(60)
  .map((line) => line.trim().split(/\s+/).map(Number))
  .filter((row) => row.length === 2);

test('eleven intervals: rate, its deviation and that of the residuals', () => {
  expect(rows).toHaveLength(11);
  const half = Math.SQRT1_2;
  const intervals = rows.map(([y, x]) => ({
    days: x!,
    moved: new Map([[0, { from: { right: 0, up: 0, u: half }, to: { right: y!, up: 0, u: half } }]]),
  }));
  const { rate, covariance, scale, chiSquare } = trend(intervals, matrix(2, 2), [{ right: 0, up: 0, u: 1 }])!;
  const residual = Math.sqrt(chiSquare / 10);
  expect(rate[0]! / 2.07438016528926 - 1).toBeCloseTo(0, 12);
  expect((residual * Math.sqrt(covariance.data[0]! / scale)) / 0.165289256198347e-1 - 1).toBeCloseTo(0, 12);
  expect(residual / 3.56753034006338 - 1).toBeCloseTo(0, 12);
  // The axis that stood still does not move, and does not disturb the other.
  expect(rate[1]).toBe(0);
});
