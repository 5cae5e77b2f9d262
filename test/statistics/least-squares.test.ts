import fc from 'fast-check';
import { Matrix as Referee, QrDecomposition, inverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { fromRows, leastSquares, toRows } from '../../src/statistics/index.ts';
import { relativeError, worstOf } from './close.ts';
import { normalDraws } from './random.ts';

const draw = normalDraws(20);
const rows = Array.from({ length: 14 }, () => [1, draw(), draw() * 700, draw() * 1e-3]);
const truth = [0.4, -2, 0.003, 50];
const observed = rows.map((row) => row.reduce((sum, entry, column) => sum + entry * truth[column]!, 0) + 0.1 * draw());
const uncertainty = rows.map((_, index) => 0.1 + 0.02 * index);

describe('leastSquares', () => {
  test('recovers known coefficients exactly when nothing scatters', () => {
    const exact = rows.map((row) => row.reduce((sum, entry, column) => sum + entry * truth[column]!, 0));
    const fit = leastSquares(fromRows(rows), exact);
    expect(worstOf(truth.keys(), (index) => relativeError(fit.coefficients[index]!, truth[index]!)).error).toBeLessThan(
      1e-13,
    );
    expect(fit.chiSquare).toBeLessThan(1e-25);
    expect(fit).toMatchObject({ rank: 4, degreesOfFreedom: 10, reason: 'full rank', undetermined: [] });
  });

  test('coefficients and covariance agree with an independent library', () => {
    const weighted = new Referee(rows.map((row, index) => row.map((entry) => entry / uncertainty[index]!)));
    const right = Referee.columnVector(observed.map((value, index) => value / uncertainty[index]!));
    const expected = new QrDecomposition(weighted).solve(right).to1DArray();
    const covariance = inverse(weighted.transpose().mmul(weighted)).to1DArray();
    const fit = leastSquares(fromRows(rows), observed, uncertainty);
    expect(
      worstOf(expected.keys(), (index) => relativeError(fit.coefficients[index]!, expected[index]!)).error,
    ).toBeLessThan(1e-11);
    expect(
      worstOf(covariance.keys(), (index) => relativeError(fit.covariance.data[index]!, covariance[index]!)).error,
    ).toBeLessThan(1e-9);
  });

  test('residuals are observed − fitted and chi-square is their weighted sum', () => {
    const fit = leastSquares(fromRows([[1], [1]]), [1, 4], [1, 2]);
    // Weighted mean (1/1 + 4/4) / (1 + 1/4) = 1.6; residuals −0.6 and 2.4; chi-square 0.36 + 1.44.
    expect(fit.coefficients[0]).toBeCloseTo(1.6, 14);
    expect(Array.from(fit.residuals)).toEqual([expect.closeTo(-0.6, 14), expect.closeTo(2.4, 14)]);
    expect(fit.chiSquare).toBeCloseTo(1.8, 14);
    expect(fit.covariance.data[0]).toBeCloseTo(0.8, 14);
  });

  test('the covariance does not depend on the readings', () => {
    const one = leastSquares(fromRows(rows), observed, uncertainty);
    const other = leastSquares(
      fromRows(rows),
      observed.map((value) => value * value),
      uncertainty,
    );
    expect(other.covariance).toEqual(one.covariance);
  });

  test('scaling a column scales its coefficient, however far', () => {
    const plain = leastSquares(fromRows(rows), observed);
    const scaled = leastSquares(fromRows(rows.map(([a, b, c, d]) => [a!, b! * 1e12, c!, d! * 1e-12])), observed);
    expect(relativeError(scaled.coefficients[1]! * 1e12, plain.coefficients[1]!)).toBeLessThan(1e-12);
    expect(relativeError(scaled.coefficients[3]! * 1e-12, plain.coefficients[3]!)).toBeLessThan(1e-12);
    expect(scaled.rank).toBe(4);
  });

  test('the order of readings is irrelevant', () => {
    const plain = leastSquares(fromRows(rows), observed, uncertainty);
    fc.assert(
      fc.property(fc.shuffledSubarray([...rows.keys()], { minLength: rows.length }), (order) => {
        const fit = leastSquares(
          fromRows(order.map((i) => rows[i]!)),
          order.map((i) => observed[i]!),
          order.map((i) => uncertainty[i]!),
        );
        expect(
          worstOf(truth.keys(), (i) => relativeError(fit.coefficients[i]!, plain.coefficients[i]!)).error,
        ).toBeLessThan(1e-11);
      }),
      { numRuns: 20 },
    );
  });
});

describe('leastSquares where the readings do not fix everything', () => {
  test('two columns that are the same are both undetermined, the third is right', () => {
    const fit = leastSquares(
      fromRows([
        [1, 1, 0],
        [1, 1, 1],
        [1, 1, 3],
        [1, 1, 4],
      ]),
      [5, 7, 11, 13],
    );
    expect(fit).toMatchObject({ rank: 2, degreesOfFreedom: 2, reason: 'dependent columns', undetermined: [0, 1] });
    expect(fit.coefficients[2]).toBeCloseTo(2, 13);
    expect(fit.coefficients[0]! + fit.coefficients[1]!).toBeCloseTo(5, 13);
    expect(fit.chiSquare).toBeLessThan(1e-25);
  });

  test('a dependence that rounding blurs is still one', () => {
    const blurred = rows.map(([a, b, c, d]) => [a!, b!, c!, d!, 0.1 * a! + 0.7 * b! - 0.3 * c!]);
    expect(leastSquares(fromRows(blurred), observed)).toMatchObject({ rank: 4, undetermined: [0, 1, 2, 4] });
  });

  test('a column of zeros', () => {
    const fit = leastSquares(
      fromRows([
        [1, 0],
        [1, 0],
        [1, 0],
      ]),
      [1, 2, 3],
    );
    expect(fit).toMatchObject({ rank: 1, reason: 'dependent columns', undetermined: [1] });
    expect(fit.coefficients[0]).toBeCloseTo(2, 14);
  });

  test('fewer readings than unknowns still reproduce the readings', () => {
    const fit = leastSquares(
      fromRows([
        [1, 2, 3],
        [0, 1, 1],
      ]),
      [6, 2],
    );
    expect(fit).toMatchObject({
      rank: 2,
      degreesOfFreedom: 0,
      reason: 'fewer readings than unknowns',
      undetermined: [0, 1, 2],
    });
    expect(fit.chiSquare).toBeLessThan(1e-25);
  });

  test('columns that differ by a part in 10⁹ are still distinguished', () => {
    const near = [0, 1, 2, 3, 4].map((x) => [1, x, 1 + 1e-9 * x * x]);
    const fit = leastSquares(
      fromRows(near),
      near.map(([a, b, c]) => a! + 2 * b! + 3 * c!),
    );
    expect(fit.rank).toBe(3);
    expect(fit.coefficients[2]).toBeCloseTo(3, 5);
  });

  test('no number is NaN, whatever is missing', () => {
    const fit = leastSquares(
      fromRows([
        [0, 0],
        [0, 0],
      ]),
      [1, 2],
    );
    expect(fit.rank).toBe(0);
    expect([...fit.coefficients, ...toRows(fit.covariance).flat(), fit.chiSquare].every(Number.isFinite)).toBe(true);
  });

  test('wrong lengths and uncertainties that are not positive are refused', () => {
    expect(() => leastSquares(fromRows([[1], [1]]), [1])).toThrow(RangeError);
    expect(() => leastSquares(fromRows([[1], [1]]), [1, 2], [1])).toThrow(RangeError);
    expect(() => leastSquares(fromRows([[1], [1]]), [1, 2], [1, 0])).toThrow(RangeError);
    expect(() => leastSquares(fromRows([[1], [1]]), [1, 2], [1, NaN])).toThrow(RangeError);
  });
});
