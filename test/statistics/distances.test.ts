/** Several distances within their limits at once: against formulas, and against a million random draws. */
import { qchisq } from 'lib-r-math.js';
import { describe, expect, test } from 'vitest';
import {
  type Matrix,
  chiSquareCdf,
  distancesWithin,
  fromRows,
  identity,
  matrix,
  multiplyTransposed,
  smallestProbability,
  type Distance,
} from '../../src/statistics/index.ts';
import { normalDraws } from './random.ts';
import { shareOfDraws } from './share-of-draws.ts';

const fromMiddle = (count: number, most: number): Distance[] =>
  Array.from({ length: count }, (_, one) => ({ one, share: 1 / most }));

/** A covariance of full rank with correlations of all sizes. */
function correlated(size: number, seed: number): Matrix {
  const draw = normalDraws(seed);
  const factor = fromRows(Array.from({ length: size }, () => Array.from({ length: size + 2 }, draw)));
  return multiplyTransposed(factor, factor);
}

test.each([0.1, 0.5, 0.8, 0.95])('one circle about the mean, %f of it inside: chi-square', (p) => {
  const { joint } = distancesWithin(new Float64Array(2), identity(2), [fromMiddle(1, Math.sqrt(qchisq(p, 2)))]);
  expect(joint).toBeCloseTo(p, 8);
});

test.each([2, 3, 6])('%i marks that have nothing in common: the product', (count) => {
  const one = chiSquareCdf(4, 2);
  const { joint } = distancesWithin(new Float64Array(2 * count), identity(2 * count), [fromMiddle(count, 2)]);
  expect(Math.abs(joint - one ** count)).toBeLessThan(0.003);
});

test('a second mark that is the first one again adds nothing', () => {
  const twice = fromRows([
    [1, 0, 1, 0],
    [0, 1, 0, 1],
    [1, 0, 1, 0],
    [0, 1, 0, 1],
  ]);
  const { joint } = distancesWithin(new Float64Array(4), twice, [fromMiddle(2, 2)]);
  expect(Math.abs(joint - chiSquareCdf(4, 2))).toBeLessThan(0.003);
});

test('nothing scatters: the answer is 0 or 1', () => {
  expect(distancesWithin(new Float64Array([1, 0, 0, 1]), matrix(4, 4), [fromMiddle(2, 2)]).joint).toBe(1);
  expect(distancesWithin(new Float64Array([3, 0, 0, 1]), matrix(4, 4), [fromMiddle(2, 2)]).joint).toBe(0);
});

test('a group by itself is no less probable than all together', () => {
  const covariance = correlated(8, 3);
  const groups = [
    fromMiddle(4, 6),
    [
      { one: 1, other: 0, share: 1 / 5 },
      { one: 3, other: 2, share: 1 / 5 },
    ],
  ];
  const { joint, each } = distancesWithin(new Float64Array(8), covariance, groups);
  for (const [k, group] of groups.entries()) {
    expect(each[k]!).toBeGreaterThanOrEqual(joint);
    expect(Math.abs(each[k]! - distancesWithin(new Float64Array(8), covariance, [group]).joint)).toBeLessThan(0.005);
  }
});

describe('against a million random draws', () => {
  test.each([
    [4, 4],
    [6, 5],
    [8, 6],
    [12, 9],
  ])('%i dimensions, circles of %i and distances between neighbours', (size, most) => {
    const mean = Float64Array.from({ length: size }, (_, index) => 0.2 * index - 0.5);
    const covariance = correlated(size, 50 + size);
    const distances = [
      ...fromMiddle(size / 2, most),
      ...fromMiddle(size / 2 - 1, most * 1.2).map((one) => ({ ...one, other: one.one + 1 })),
    ];
    const expected = shareOfDraws(
      mean,
      covariance,
      (x) =>
        distances.every(({ one, other, share }) => {
          const part = (axis: number) => x[2 * one + axis]! - (other === undefined ? 0 : x[2 * other + axis]!);
          return Math.hypot(part(0), part(1)) * share <= 1;
        }),
      1_000_000,
    );
    expect(expected).toBeGreaterThan(0.1);
    expect(expected).toBeLessThan(0.97);
    expect(Math.abs(distancesWithin(mean, covariance, [distances]).joint - expected)).toBeLessThan(0.005);
  });
});

/** It passes over those of which it can see that they are not the smallest; asked one by one, each is worked out. */
test('the smallest of some probabilities is the smallest of each by itself', () => {
  const draw = normalDraws(11);
  const seen: number[] = [];
  for (let k = 0; k < 200; k++) {
    const covariance = correlated(8, 100 + k);
    const mean = Float64Array.from({ length: 8 }, () => 3 * draw());
    const distances: Distance[] = [
      ...[0, 1, 2, 3].map((one) => ({ one, share: 1 / (2 + 6 * Math.abs(draw())) })),
      ...[1, 2, 3].map((one) => ({ one, other: 0, share: 1 / (2 + 9 * Math.abs(draw())) })),
    ];
    const each = distances.map((distance) => smallestProbability([distance], mean, covariance));
    const smallest = smallestProbability(distances, mean, covariance);
    expect(smallest).toBe(Math.min(...each));
    seen.push(smallest);
  }
  expect(seen.filter((p) => p > 0.05 && p < 0.95).length).toBeGreaterThan(50);
  expect(smallestProbability([], new Float64Array(2), identity(2))).toBe(1);
});

test.each([0.1, 0.5, 0.95])('of one circle about the mean, %f of it inside: chi-square', (p) =>
  expect(smallestProbability(fromMiddle(1, Math.sqrt(qchisq(p, 2))), new Float64Array(2), identity(2))).toBeCloseTo(
    p,
    9,
  ),
);
