/**
 * The certified regressions of the NIST Statistical Reference Datasets (StRD), read from the data files themselves.
 *
 * Accuracy is counted in digits, −log₁₀ of the relative error, at most 15 (NIST's "log relative error"). What is asked
 * for is what a good double-precision QR reaches; the normal equations must *fail* the hard one, or the check would be
 * worth little.
 */
import { readFileSync } from 'node:fs';
import { Matrix as Referee, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  fromRows,
  leastSquares,
  lineFit,
  toRows,
  solveSymmetric,
  multiply,
  transpose,
} from '../../src/statistics/index.ts';

interface Certified {
  readonly x: number[];
  readonly y: number[];
  readonly estimates: number[];
  readonly deviations: number[];
  readonly residualDeviation: number;
}

/** Certified values in the head, data from line 61 on as y, x. */
function read(name: string): Certified {
  const lines = readFileSync(new URL(`./data/${name}.dat`, import.meta.url), 'utf8').split(/\r?\n/);
  const parameters = lines
    .slice(0, 60)
    .map((line) => /^\s+B\d+\s+(\S+)\s+(\S+)\s*$/.exec(line))
    .filter((match) => match !== null);
  const start = lines.findIndex((line) => /Residual\s*$/.test(line));
  const data = lines
    .slice(60)
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length === 2);
  return {
    y: data.map((row) => row[0]!),
    x: data.map((row) => row[1]!),
    estimates: parameters.map((match) => Number(match[1])),
    deviations: parameters.map((match) => Number(match[2])),
    residualDeviation: Number(/Standard Deviation\s+(\S+)/.exec(lines.slice(start).join('\n'))![1]),
  };
}

function digits(result: number, certified: number): number {
  const error = certified === 0 ? Math.abs(result) : Math.abs(result / certified - 1);
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
}

function fewestDigits(result: ArrayLike<number>, certified: readonly number[]): number {
  return Math.min(...certified.map((value, index) => digits(result[index]!, value)));
}

function powers(x: readonly number[], exponents: readonly number[]): number[][] {
  return x.map((value) => exponents.map((exponent) => value ** exponent));
}

const exponents: Record<string, number[]> = {
  Norris: [0, 1],
  Pontius: [0, 1, 2],
  NoInt1: [1],
  Filip: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
  Wampler1: [0, 1, 2, 3, 4, 5],
  Wampler2: [0, 1, 2, 3, 4, 5],
  Wampler4: [0, 1, 2, 3, 4, 5],
};

describe('NIST StRD, linear regression', () => {
  test.each([
    // Set, readings, digits of the estimates, of their deviations, of the residual deviation.
    ['Norris', 36, 12, 12, 12],
    ['Pontius', 40, 10, 10, 10],
    ['NoInt1', 11, 13, 13, 13],
    ['Filip', 82, 6, 6, 6],
    ['Wampler4', 21, 7, 9, 12],
  ] as const)('%s: %i readings, estimates to %i digits', (name, count, ofEstimates, ofDeviations, ofResidual) => {
    const certified = read(name);
    expect(certified.x).toHaveLength(count);
    expect(certified.estimates).toHaveLength(exponents[name]!.length);
    const fit = leastSquares(fromRows(powers(certified.x, exponents[name]!)), certified.y);
    expect(fit.rank).toBe(exponents[name]!.length);
    expect(fewestDigits(fit.coefficients, certified.estimates)).toBeGreaterThan(ofEstimates);
    // The certified deviations are scaled by the residuals; the covariance of the fit is not.
    const scale = fit.chiSquare / fit.degreesOfFreedom;
    expect(digits(Math.sqrt(scale), certified.residualDeviation)).toBeGreaterThan(ofResidual);
    const deviations = toRows(fit.covariance).map((row, index) => Math.sqrt(row[index]! * scale));
    expect(fewestDigits(deviations, certified.deviations)).toBeGreaterThan(ofDeviations);
  });

  test.each([
    ['Wampler1', 8],
    ['Wampler2', 10],
  ])('%s: an exact polynomial, to %i digits and without residuals', (name, digits) => {
    const certified = read(name);
    const fit = leastSquares(fromRows(powers(certified.x, exponents[name]!)), certified.y);
    expect(fewestDigits(fit.coefficients, certified.estimates)).toBeGreaterThan(digits);
    expect(certified.residualDeviation).toBe(0);
    expect(Math.sqrt(fit.chiSquare / 15) / Math.max(...certified.y)).toBeLessThan(1e-14);
  });

  test('Norris by the line fit; covariance −7.74327536339570e-05 as in the fit test of GSL (computed there, not certified)', () => {
    const certified = read('Norris');
    const fit = lineFit(certified.x, certified.y);
    if (fit.slope === undefined) throw new Error(fit.reason);
    expect(fewestDigits([fit.intercept, fit.slope], certified.estimates)).toBeGreaterThan(12);
    const deviations = [Math.sqrt(fit.covariance.intercept), Math.sqrt(fit.covariance.slope)];
    expect(fewestDigits(deviations, certified.deviations)).toBeGreaterThan(12);
    expect(digits(fit.covariance.both, -7.7432753633957e-5)).toBeGreaterThan(10);
  });

  test('Filip by the normal equations has no right digit: the check distinguishes a good method from a poor one', () => {
    const certified = read('Filip');
    const rows = powers(certified.x, exponents.Filip!);
    const design = new Referee(rows);
    const normal = design.transpose().mmul(design);
    const result = solve(normal, design.transpose().mmul(Referee.columnVector(certified.y))).to1DArray();
    expect(fewestDigits(result, certified.estimates)).toBeLessThan(1);
    // Cholesky refuses the same matrix as not positive definite, rather than giving such numbers.
    const ours = multiply(transpose(fromRows(rows)), fromRows(rows));
    expect(solveSymmetric(ours, fromRows(certified.y.slice(0, 11).map((y) => [y])))).toBeUndefined();
  });
});
