/** Several distances within their limits at once: against formulas, and against a million random draws. */
import { describe, expect, test } from 'vitest';
import { distancesWithin, identity, smallestProbability, type Distance } from '../../src/statistics/index.ts';
import { normalDraws } from '../statistics/random.ts';
import { fractionOfDraws } from '../statistics/fraction-of-draws.ts';
import { correlated, fromMiddle } from '../statistics/marks.ts';

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
    const expected = fractionOfDraws(
      mean,
      covariance,
      (x) =>
        distances.every(({ one, other, inverseLimit }) => {
          const part = (axis: number) => x[2 * one + axis]! - (other === undefined ? 0 : x[2 * other + axis]!);
          return Math.hypot(part(0), part(1)) * inverseLimit <= 1;
        }),
      1_000_000,
    );
    expect(expected).toBeGreaterThan(0.1);
    expect(expected).toBeLessThan(0.97);
    expect(Math.abs(distancesWithin(mean, covariance, [distances]).joint - expected)).toBeLessThan(0.005);
  });
});

/** The function skips those whose bounds show that they are not the smallest; one by one, each is computed. */
test('the smallest of some probabilities is the smallest of each by itself', () => {
  const draw = normalDraws(11);
  const probabilities: number[] = [];
  for (let k = 0; k < 200; k++) {
    const covariance = correlated(8, 100 + k);
    const mean = Float64Array.from({ length: 8 }, () => 3 * draw());
    const distances: Distance[] = [
      ...[0, 1, 2, 3].map((one) => ({ one, inverseLimit: 1 / (2 + 6 * Math.abs(draw())) })),
      ...[1, 2, 3].map((one) => ({ one, other: 0, inverseLimit: 1 / (2 + 9 * Math.abs(draw())) })),
    ];
    const each = distances.map((distance) => smallestProbability([distance], mean, covariance));
    const smallest = smallestProbability(distances, mean, covariance);
    expect(smallest).toBe(Math.min(...each));
    probabilities.push(smallest);
  }
  expect(probabilities.filter((p) => p > 0.05 && p < 0.95).length).toBeGreaterThan(50);
  expect(smallestProbability([], new Float64Array(2), identity(2))).toBe(1);
});
