import fc from 'fast-check';
import { Matrix as Referee } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  fromRows,
  identity,
  matrix,
  multiply,
  multiplyTransposed,
  toRows,
  transpose,
} from '../../src/statistics/index.ts';

const left = fromRows([
  [1, 2, 3],
  [4, 5, 6],
]);
const right = fromRows([
  [1, 0, -1],
  [2, 1, 0.5],
]);

describe('matrix', () => {
  test('is stored row after row', () => {
    expect(Array.from(left.data)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(toRows(left)).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
  });

  test('transposes', () =>
    expect(toRows(transpose(left))).toEqual([
      [1, 4],
      [2, 5],
      [3, 6],
    ]));

  test('multiplies', () =>
    expect(toRows(multiply(left, transpose(right)))).toEqual([
      [-2, 5.5],
      [-2, 16],
    ]));

  test('multiplies by a transpose', () =>
    expect(toRows(multiplyTransposed(left, right))).toEqual([
      [-2, 5.5],
      [-2, 16],
    ]));

  test('leaves its arguments alone', () => {
    multiply(left, transpose(right));
    expect(toRows(left)).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
  });

  test('refuses shapes that do not fit', () => {
    expect(() => matrix(2, 2, new Float64Array(3))).toThrow(RangeError);
    expect(() => fromRows([[1, 2], [3]])).toThrow(RangeError);
    expect(() => multiply(left, right)).toThrow(RangeError);
    expect(() => multiplyTransposed(left, transpose(right))).toThrow(RangeError);
  });

  test('no rows make an empty matrix', () =>
    expect(fromRows([])).toEqual({ rows: 0, columns: 0, data: new Float64Array(0) }));

  test('agrees with an independent library, and with itself by both ways', () => {
    const entry = fc.integer({ min: -50, max: 50 });
    const shape = fc.tuple(
      fc.integer({ min: 1, max: 6 }),
      fc.integer({ min: 1, max: 6 }),
      fc.integer({ min: 1, max: 6 }),
    );
    const table = (rows: number, columns: number) =>
      fc.array(fc.array(entry, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });
    fc.assert(
      fc.property(
        shape.chain(([rows, inner, columns]) => fc.tuple(table(rows, inner), table(inner, columns))),
        ([one, other]) => {
          const product = toRows(multiply(fromRows(one), fromRows(other)));
          // Whole numbers: both are exact. `+ 0` because −0 is not 0 to toEqual.
          expect(product.map((row) => row.map((value) => value + 0))).toEqual(
            new Referee(one)
              .mmul(new Referee(other))
              .to2DArray()
              .map((row) => row.map((value) => value + 0)),
          );
          expect(
            toRows(multiplyTransposed(fromRows(one), transpose(fromRows(other)))).map((row) => row.map((v) => v + 0)),
          ).toEqual(product.map((row) => row.map((value) => value + 0)));
        },
      ),
      { numRuns: 50 },
    );
  });

  test('the identity changes nothing', () => {
    expect(multiply(identity(2), left)).toEqual(left);
    expect(multiply(left, identity(3))).toEqual(left);
  });
});
