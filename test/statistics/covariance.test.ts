import { describe, expect, test } from 'vitest';
import {
  type Covariance,
  covarianceBetween,
  CovarianceBuilder,
  diagonal,
  fromEntries,
  fromRows,
  multiply,
  timesCovariance,
  toRows,
} from '../../src/statistics/index.ts';

const START = diagonal([4, 9, 0.25]);

function changed() {
  const builder = new CovarianceBuilder(START);
  builder.set(0, 1, 3);
  builder.add(0, 2, -1);
  builder.add(2, 2, 0.5);
  return builder.result;
}

/** Both triangles, as rows. */
const whole = (covariance: Covariance) =>
  toRows(fromEntries(covariance.length, covariance.length, (i, k) => covarianceBetween(covariance, i, k)));

describe('covariance', () => {
  test('of independent unknowns has their variances and nothing else', () =>
    expect(whole(START)).toEqual([
      [4, 0, 0],
      [0, 9, 0],
      [0, 0, 0.25],
    ]));

  test('is made from another, which stays as it was', () => {
    expect(whole(changed())).toEqual([
      [4, 3, -1],
      [3, 9, 0],
      [-1, 0, 0.75],
    ]);
    expect(START).toEqual(diagonal([4, 9, 0.25]));
  });

  test('shares with the other one the rows that are the same', () => expect(changed()[0]).toBe(START[0]));

  test('is multiplied like any matrix', () => {
    const left = fromRows([
      [1, 0, -2],
      [0, 0.5, 1],
    ]);
    expect(toRows(timesCovariance(left, changed()))).toEqual(toRows(multiply(left, fromRows(whole(changed())))));
  });

  test('refuses a matrix that is about other unknowns', () =>
    expect(() => timesCovariance(fromRows([[1, 2]]), START)).toThrow(RangeError));
});
