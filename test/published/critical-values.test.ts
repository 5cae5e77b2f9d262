/**
 * Critical values of chi-square and t.
 *
 * Chi-square: read in university tables with three to five decimals, further decimals from R 4.2.2. Student's t: R
 * 4.2.2, computed independently.
 */
import { describe, expect, test } from 'vitest';
import { chiSquareCdf, chiSquareQuantile, chiSquareUpper, studentQuantile } from '../../src/statistics/index.ts';

const degrees = [1, 2, 3, 4, 5, 10];
const chiSquare: [share: number, values: number[]][] = [
  [0.05, [0.003932, 0.102587, 0.351846, 0.710723, 1.145476, 3.940299]],
  [0.95, [3.841459, 5.991465, 7.814728, 9.487729, 11.070498, 18.307038]],
  [0.99, [6.634897, 9.21034, 11.344867, 13.276704, 15.086272, 23.209251]],
  [0.999, [10.827566, 13.815511, 16.266236, 18.466827, 20.515006, 29.588298]],
];

describe.each(chiSquare)('chi-square, %d', (share, values) => {
  test.each(degrees.map((df, index): [number, number] => [df, values[index]!]))('df %i: %d', (df, value) => {
    expect(chiSquareQuantile(share, df).toFixed(6)).toBe(value.toFixed(6));
    // And forwards, as far as six decimals of the argument go.
    expect(Math.abs(chiSquareCdf(value, df) / share - 1)).toBeLessThan(2e-4);
    expect(Math.abs(chiSquareUpper(value, df) / (1 - share) - 1)).toBeLessThan(1e-6);
  });
});

test.each([
  [1, 12.706205],
  [2, 4.302653],
  [5, 2.570582],
  [10, 2.228139],
  [30, 2.042272],
])('t, two-sided 95 %, df %i: %d (computed independently)', (df, value) =>
  expect(studentQuantile(0.975, df).toFixed(6)).toBe(value.toFixed(6)),
);
