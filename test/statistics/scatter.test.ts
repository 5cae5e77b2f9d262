import { describe, expect, test } from 'vitest';
import { pooledVariance, sampleVariance } from '../../src/statistics/index.ts';

describe('scatter of repeats', () => {
  test('sample variance by hand', () => expect(sampleVariance([1, 2, 3, 6])).toBeCloseTo(14 / 3, 14));

  test('one reading, or none, has no scatter', () => {
    expect(sampleVariance([])).toBeUndefined();
    expect(sampleVariance([1])).toBeUndefined();
  });

  test('a large value does not drown a small scatter', () => expect(sampleVariance([1e9, 1e9 + 1, 1e9 + 2])).toBe(1));

  test('pooled: each group about its own mean', () =>
    // 2 · 0.25 with one degree, 2 with two: 2.5 over 3.
    expect(pooledVariance([[1, 2], [10, 11, 12], [99], []])).toEqual({ variance: 2.5 / 3, degreesOfFreedom: 3 }));

  test('groups without repeats pool to nothing', () => expect(pooledVariance([[1], [2]])).toBeUndefined());
});
