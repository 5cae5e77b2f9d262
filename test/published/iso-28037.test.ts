/**
 * Weighted straight lines: ISO/TS 28037:2010, clause 6, and what follows from a prior.
 *
 * The figures of the standard were read as quoted in the test file of MSLNZ/GTC. Figures with more digits than quoted
 * there were computed independently. The figures with a prior are all computed independently, from the posterior
 * formula in a public derivation after Bishop, Pattern Recognition and Machine Learning (2006), chapter 3.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type LeastSquares, type Line, fromRows, leastSquares, lineFit } from '../../src/statistics/index.ts';

const x = [1, 2, 3, 4, 5, 6];
const y = [3.3, 5.6, 7.1, 9.3, 10.7, 12.1];
const u = x.map(() => 0.5);

function line(x: readonly number[], y: readonly number[], u?: readonly number[]): Line {
  const fit = lineFit(x, y, u);
  if (fit.slope === undefined) throw new Error(fit.reason);
  return fit;
}

const expectRelative = (result: number, expected: number, tolerance: number) =>
  expect(Math.abs(result / expected - 1)).toBeLessThan(tolerance);

describe('ISO/TS 28037:2010 6.3, equal weights, page 13', () => {
  const fit = line(x, y, u);

  test('as quoted: 1.866667, 1.757143, 0.4654747, 0.1195229, −0.050, 1.665', () => {
    expect(fit.intercept.toFixed(6)).toBe('1.866667');
    expect(fit.slope.toFixed(6)).toBe('1.757143');
    expect(Math.sqrt(fit.covariance.intercept).toFixed(7)).toBe('0.4654747');
    expect(Math.sqrt(fit.covariance.slope).toFixed(7)).toBe('0.1195229');
    expect(fit.covariance.both.toFixed(3)).toBe('-0.050');
    expect(fit.chiSquare.toFixed(3)).toBe('1.665');
  });

  test('to more digits, computed independently', () => {
    expectRelative(fit.intercept, 1.86666666666667, 1e-11);
    expectRelative(fit.slope, 1.75714285714286, 1e-11);
    expectRelative(Math.sqrt(fit.covariance.intercept), 0.465474668126, 1e-11);
    expectRelative(Math.sqrt(fit.covariance.slope), 0.119522860933, 1e-11);
    expectRelative(fit.covariance.both, -0.05, 1e-13);
    expectRelative(fit.chiSquare, 1.66476190476, 1e-11);
    expect(fit.degreesOfFreedom).toBe(4);
  });

  /**
   * Read there backwards: y 10.5, u 0.5 gives x 4.913, u 0.322, so u² of the line is (0.322 b)² − 0.5². Half a last
   * digit of x is 0.0009 of y, of u(x) 0.0019.
   */
  test('at x 4.913 the line is 10.5, and as uncertain as the quoted inverse evaluation leaves it', () => {
    const { value, u: own } = fit.at(4.913);
    expect(Math.abs(value - 10.5)).toBeLessThan(0.0009);
    expect(Math.abs(own - Math.sqrt((0.322 * 1.757143) ** 2 - 0.25))).toBeLessThan(0.0019);
  });
});

test('unequal weights, scaled by the residuals: GTC test file, results from R', () => {
  const fit = line(x, [3.014, 5.225, 7.004, 9.061, 11.201, 12.762], [0.2, 0.2, 0.2, 0.4, 0.4, 0.4]);
  const scale = fit.chiSquare / fit.degreesOfFreedom;
  expectRelative(fit.intercept, 1.13754, 1e-4);
  expectRelative(fit.slope, 1.97264, 1e-4);
  expectRelative(Math.sqrt(scale * fit.covariance.intercept), 0.12261, 1e-4);
  expectRelative(Math.sqrt(scale * fit.covariance.slope), 0.04118, 1e-4);
  expectRelative(scale * fit.covariance.both, -0.004408553, 1e-4);
});

/** The same data with the prior a = 0 ± d, b = 0 ± d as two more readings. */
function withPrior(deviation: number): LeastSquares {
  const design = [...x.map((place) => [1, place]), [1, 0], [0, 1]];
  return leastSquares(fromRows(design), [...y, 0, 0], [...u, deviation, deviation]);
}

describe('with a prior (computed independently)', () => {
  test('of mean 0 and variance 1', () => {
    const fit = withPrior(1);
    expectRelative(fit.coefficients[0]!, 1.608699855002416, 1e-10);
    expectRelative(fit.coefficients[1]!, 1.8116964717254718, 1e-10);
    expectRelative(Math.sqrt(fit.covariance.data[0]!), 0.420016340679613, 1e-10);
    expectRelative(Math.sqrt(fit.covariance.data[3]!), 0.109923300295255, 1e-10);
    expectRelative(fit.covariance.data[1]!, -0.0405993233446109, 1e-10);
  });

  test('a broad prior has no effect: the line without it', () => {
    const fit = withPrior(1e6);
    expectRelative(fit.coefficients[0]!, line(x, y, u).intercept, 1e-10);
    expectRelative(fit.coefficients[1]!, line(x, y, u).slope, 1e-10);
  });

  test('the posterior of one part of the readings is the prior of the rest', () => {
    const cut = fc.integer({ min: 2, max: 4 });
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 });
    fc.assert(
      fc.property(cut, order, (count, places) => {
        const rows = places.map((index) => ({ row: [1, x[index]!], y: y[index]!, u: 0.2 + 0.1 * index }));
        const all = leastSquares(
          fromRows(rows.map((r) => r.row)),
          rows.map((r) => r.y),
          rows.map((r) => r.u),
        );
        const [first, rest] = [rows.slice(0, count), rows.slice(count)];
        const prior = leastSquares(
          fromRows(first.map((r) => r.row)),
          first.map((r) => r.y),
          first.map((r) => r.u),
        );
        // A correlated prior as two uncorrelated readings: b itself, and a given b.
        const [aa, ab, , bb] = prior.covariance.data as unknown as [number, number, number, number];
        const ratio = ab / bb;
        const [a, b] = [prior.coefficients[0]!, prior.coefficients[1]!];
        const design = [[0, 1], [1, -ratio], ...rest.map((r) => r.row)];
        const observed = [b, a - ratio * b, ...rest.map((r) => r.y)];
        const both = leastSquares(fromRows(design), observed, [
          Math.sqrt(bb),
          Math.sqrt(aa - ratio * ab),
          ...rest.map((r) => r.u),
        ]);
        both.coefficients.forEach((value, index) => expectRelative(value, all.coefficients[index]!, 1e-10));
        both.covariance.data.forEach((value, index) => expectRelative(value, all.covariance.data[index]!, 1e-10));
      }),
    );
  });
});
