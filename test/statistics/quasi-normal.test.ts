import { qchisq, qnorm } from 'lib-r-math.js';
import { describe, expect, test } from 'vitest';
import {
  MOST_DIMENSIONS,
  type Matrix,
  chiSquareCdf,
  fromRows,
  gaussianProbability,
  identity,
  matrix,
  multiplyTransposed,
  normalCdf,
  quasiNormal,
  symmetricSquareRoot,
} from '../../src/statistics/index.ts';
import { normalDraws } from './random.ts';

describe('quasiNormal', () => {
  test('is the same at every call, and a smaller set begins a larger one', () => {
    const large = quasiNormal(5, 256);
    expect(quasiNormal(5, 256)).toEqual(large);
    expect(quasiNormal(5, 64).data).toEqual(large.data.slice(0, 64 * 5));
  });

  test('every coordinate is stratified: one point in each of 1024 equally likely intervals', () => {
    const points = quasiNormal(MOST_DIMENSIONS, 1024);
    for (let column = 0; column < points.columns; column++) {
      const intervals = new Set(Array.from({ length: 1024 }, (_, row) => Math.floor(1024 * normalCdf(points.data[row * points.columns + column]!))));
      expect(intervals.size).toBe(1024);
    }
  });

  test('coordinates are uncorrelated, up to the last dimension', () => {
    const points = quasiNormal(MOST_DIMENSIONS, 4096);
    const columns = matrix(points.columns, points.rows);
    points.data.forEach((value, index) => (columns.data[(index % points.columns) * points.rows + Math.floor(index / points.columns)] = value));
    const moments = multiplyTransposed(columns, columns).data.map((sum) => sum / points.rows);
    const largest = Math.max(...moments.map((moment, index) => Math.abs(moment - (index % (points.columns + 1) === 0 ? 1 : 0))));
    // The largest of as many random draws is about 0.06; a lattice with a bad pair has 0.3.
    expect(largest).toBeLessThan(0.05);
  });

  test('too many dimensions are refused', () => expect(() => quasiNormal(MOST_DIMENSIONS + 1, 1)).toThrow(RangeError));
});

/** A covariance of full rank with correlations of all sizes. */
function correlated(size: number, seed: number): Matrix {
  const draw = normalDraws(seed);
  const factor = fromRows(Array.from({ length: size }, () => Array.from({ length: size + 2 }, draw)));
  return multiplyTransposed(factor, factor);
}

/** Every pair of coordinates (one stop's right and up) within a radius, as a station's requirements are. */
function allStopsWithin(radius: number): (x: Float64Array) => boolean {
  return (x) => {
    for (let index = 0; index + 1 < x.length; index += 2) {
      if (x[index]! ** 2 + x[index + 1]! ** 2 > radius * radius) return false;
    }
    return true;
  };
}

describe('gaussianProbability', () => {
  test('of balls in 2 to 12 dimensions: chi-square, at half the error of random draws', () => {
    const errors = [2, 3, 4, 6, 8, 10, 12].flatMap((size) => {
      const sample = quasiNormal(size, 4096);
      return [0.3, 0.5, 0.8, 0.95].map((p) => {
        const square = qchisq(p, size);
        const ball = (x: Float64Array) => x.reduce((sum, value) => sum + value * value, 0) <= square;
        return gaussianProbability(new Float64Array(size), identity(size), ball, sample)! - p;
      });
    });
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.008);
    // √(p(1 − p)/4096) in the mean over these p is 0.0065.
    expect(Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length)).toBeLessThan(0.0033);
  });

  test.each([2, 3, 4, 6, 8, 10, 12])('of half-spaces askew to all axes in %i dimensions: normal', (size) => {
    const covariance = correlated(size, size);
    const sigma = Math.sqrt(covariance.data.reduce((sum, entry) => sum + entry, 0));
    const half = (x: Float64Array) => x.reduce((sum, value) => sum + value, 0) <= qnorm(0.9) * sigma;
    expect(Math.abs(gaussianProbability(new Float64Array(size), covariance, half)! - 0.9)).toBeLessThan(0.005);
  });

  test.each([
    [2, 2],
    [12, 9],
  ])('of correlated stops in %i dimensions: a million random draws', (size, radius) => {
    const mean = Float64Array.from({ length: size }, (_, index) => 0.2 * index - 0.5);
    const covariance = correlated(size, 50 + size);
    const inside = allStopsWithin(radius);
    const root = symmetricSquareRoot(covariance)!;
    const expected = shareOfDraws(mean, root, inside, 1_000_000);
    expect(expected).toBeGreaterThan(0.3);
    expect(expected).toBeLessThan(0.97);
    expect(Math.abs(gaussianProbability(mean, covariance, inside)! - expected)).toBeLessThan(0.005);
  });

  test('a singular covariance: the second stop is the first one again', () => {
    const twice = fromRows([[1, 0, 1, 0], [0, 1, 0, 1], [1, 0, 1, 0], [0, 1, 0, 1]]);
    const found = gaussianProbability(new Float64Array(4), twice, allStopsWithin(2))!;
    expect(Math.abs(found - chiSquareCdf(4, 2))).toBeLessThan(0.003);
  });

  test('nothing scatters: the answer is 0 or 1', () => {
    expect(gaussianProbability(new Float64Array([1, 0]), matrix(2, 2), allStopsWithin(2))).toBe(1);
    expect(gaussianProbability(new Float64Array([3, 0]), matrix(2, 2), allStopsWithin(2))).toBe(0);
  });

  test('a negative direction has no probability, a wrong shape no meaning', () => {
    expect(gaussianProbability(new Float64Array(2), fromRows([[1, 2], [2, 1]]), () => true)).toBeUndefined();
    expect(() => gaussianProbability(new Float64Array(3), identity(2), () => true)).toThrow(RangeError);
    expect(() => gaussianProbability(new Float64Array(2), identity(2), () => true, quasiNormal(3, 8))).toThrow(RangeError);
  });
});

function shareOfDraws(mean: Float64Array, root: Matrix, inside: (x: Float64Array) => boolean, count: number): number {
  const draw = normalDraws(99);
  const size = mean.length;
  const [x, z] = [new Float64Array(size), new Float64Array(size)];
  let hits = 0;
  for (let trial = 0; trial < count; trial++) {
    for (let index = 0; index < size; index++) z[index] = draw();
    for (let row = 0; row < size; row++) {
      let value = mean[row]!;
      for (let column = 0; column < size; column++) value += root.data[row * size + column]! * z[column]!;
      x[row] = value;
    }
    if (inside(x)) hits++;
  }
  return hits / count;
}
