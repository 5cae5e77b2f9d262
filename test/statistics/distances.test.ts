/** Several distances within their limits at once: against formulas, and against a million random draws. */
import { qchisq } from 'lib-r-math.js';
import { expect, test } from 'vitest';
import {
  chiSquareCdf,
  distancesWithin,
  fromRows,
  identity,
  matrix,
  smallestProbability,
} from '../../src/statistics/index.ts';
import { correlated, fromMiddle } from './marks.ts';

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

test('each group is at least as probable as all jointly', () => {
  const covariance = correlated(8, 3);
  const groups = [
    fromMiddle(4, 6),
    [
      { one: 1, other: 0, inverseLimit: 1 / 5 },
      { one: 3, other: 2, inverseLimit: 1 / 5 },
    ],
  ];
  const { joint, each } = distancesWithin(new Float64Array(8), covariance, groups);
  for (const [k, group] of groups.entries()) {
    expect(each[k]!).toBeGreaterThanOrEqual(joint);
    expect(Math.abs(each[k]! - distancesWithin(new Float64Array(8), covariance, [group]).joint)).toBeLessThan(0.005);
  }
});

test.each([0.1, 0.5, 0.95])('of one circle about the mean, %f of it inside: chi-square', (p) =>
  expect(smallestProbability(fromMiddle(1, Math.sqrt(qchisq(p, 2))), new Float64Array(2), identity(2))).toBeCloseTo(
    p,
    9,
  ),
);
