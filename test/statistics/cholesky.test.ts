import { CholeskyDecomposition, Matrix as Referee, inverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  type Matrix,
  cholesky,
  fromRows,
  identity,
  invertSymmetric,
  multiply,
  multiplyTransposed,
  solveSymmetric,
  toRows,
  transpose,
} from '../../src/statistics/index.ts';
import { normalDraws } from './random.ts';

/** G Gᵀ with G of `size` × `rank` normal draws: symmetric, of exactly that rank. */
function randomSymmetric(size: number, rank: number, seed: number): Matrix {
  const draw = normalDraws(seed);
  const factor = fromRows(Array.from({ length: size }, () => Array.from({ length: rank }, draw)));
  return multiplyTransposed(factor, factor);
}

function largestDifference(one: Matrix, other: Matrix): number {
  return Math.max(...one.data.map((entry, index) => Math.abs(entry - other.data[index]!)));
}

describe('cholesky', () => {
  test('a case worked by hand', () =>
    expect(
      toRows(
        cholesky(
          fromRows([
            [4, 2, 6],
            [2, 10, 6],
            [6, 6, 26],
          ]),
        )!,
      ),
    ).toEqual([
      [2, 0, 0],
      [1, 3, 0],
      [3, 1, 4],
    ]));

  test.each([2, 5, 12, 40])('size %i agrees with an independent library', (size) => {
    const symmetric = randomSymmetric(size, size + 3, size);
    const referee = new CholeskyDecomposition(new Referee(toRows(symmetric))).lowerTriangularMatrix.to2DArray();
    expect(largestDifference(cholesky(symmetric)!, fromRows(referee))).toBeLessThan(1e-11);
  });

  test.each([
    [
      'indefinite',
      [
        [1, 2],
        [2, 1],
      ],
    ],
    [
      'negative',
      [
        [-1, 0],
        [0, 1],
      ],
    ],
    [
      'singular',
      [
        [1, 1],
        [1, 1],
      ],
    ],
    [
      'a zero row',
      [
        [0, 0],
        [0, 1],
      ],
    ],
    [
      'not a number',
      [
        [NaN, 0],
        [0, 1],
      ],
    ],
  ])('%s: undefined', (_, rows) => {
    expect(cholesky(fromRows(rows))).toBeUndefined();
    expect(solveSymmetric(fromRows(rows), identity(2))).toBeUndefined();
    expect(invertSymmetric(fromRows(rows))).toBeUndefined();
  });

  test('units do not decide what is positive: mm beside microradian', () => {
    const units = [1, 1e-6, 1e3];
    const rows = [
      [4, 2, 6],
      [2, 10, 6],
      [6, 6, 26],
    ].map((row, i) => row.map((entry, j) => entry * units[i]! * units[j]!));
    expect(cholesky(fromRows(rows))).toBeDefined();
    const singular = [
      [1, 1, 0],
      [1, 1, 0],
      [0, 0, 1],
    ].map((row, i) => row.map((entry, j) => entry * units[i]! * units[j]!));
    expect(cholesky(fromRows(singular))).toBeUndefined();
  });

  test('singular up to rounding, whichever side of zero that falls', () => {
    for (let seed = 0; seed < 20; seed++) expect(cholesky(randomSymmetric(6, 4, seed))).toBeUndefined();
  });

  test('not square: refused', () => expect(() => cholesky(fromRows([[1, 2]]))).toThrow(RangeError));
});

describe('solving and inverting', () => {
  test('recovers a known solution for several right-hand sides', () => {
    const symmetric = randomSymmetric(8, 11, 3);
    const known = fromRows(Array.from({ length: 8 }, (_, index) => [index + 1, -index]));
    expect(largestDifference(solveSymmetric(symmetric, multiply(symmetric, known))!, known)).toBeLessThan(1e-10);
  });

  test.each([1, 3, 12, 40])(
    'inverse of size %i agrees with an independent library and is exactly symmetric',
    (size) => {
      const symmetric = randomSymmetric(size, size + 5, 100 + size);
      const result = invertSymmetric(symmetric)!;
      const expected = fromRows(inverse(new Referee(toRows(symmetric))).to2DArray());
      const scale = Math.max(...expected.data.map(Math.abs));
      expect(largestDifference(result, expected) / scale).toBeLessThan(1e-12);
      expect(transpose(result)).toEqual(result);
    },
  );

  test('leaves its arguments alone', () => {
    const right = identity(2);
    solveSymmetric(
      fromRows([
        [2, 1],
        [1, 2],
      ]),
      right,
    );
    expect(right).toEqual(identity(2));
  });
});
