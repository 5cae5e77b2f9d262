import { describe, expect, test } from 'vitest';
import {
  CovarianceBuilder,
  diagonal,
  fromRows,
  multiply,
  timesCovariance,
  toRows,
} from '../../src/statistics/index.ts';

const START = diagonal([4, 9, 0.25]);

function changed() {
  const builder = new CovarianceBuilder(START);
  builder.row(0)[1] = 3;
  builder.row(1)[0] = 3;
  return builder.result;
}

describe('covariance', () => {
  test('of independent unknowns has their variances and nothing else', () =>
    expect(START).toEqual([
      [4, 0, 0],
      [0, 9, 0],
      [0, 0, 0.25],
    ]));

  test('is made from another, which stays as it was', () => {
    expect(changed()).toEqual([
      [4, 3, 0],
      [3, 9, 0],
      [0, 0, 0.25],
    ]);
    expect(START).toEqual(diagonal([4, 9, 0.25]));
  });

  test('shares with the other one the rows that are the same', () => expect(changed()[2]).toBe(START[2]));

  test('is multiplied like any matrix', () => {
    const left = fromRows([
      [1, 0, -2],
      [0, 0.5, 1],
    ]);
    expect(toRows(timesCovariance(left, changed()))).toEqual(toRows(multiply(left, fromRows(changed()))));
  });

  test('refuses a matrix that is about other unknowns', () =>
    expect(() => timesCovariance(fromRows([[1, 2]]), START)).toThrow(RangeError));
});
