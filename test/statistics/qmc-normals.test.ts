import { describe, expect, test } from 'vitest';
import {
  MOST_DIMENSIONS,
  POINTS,
  fromRows,
  multiplyTransposed,
  normalCdf,
  qmcNormals,
} from '../../src/statistics/index.ts';

describe('quasiNormal', () => {
  test('is the same at every call, and fewer dimensions begin more', () => {
    const large = qmcNormals(5);
    expect(qmcNormals(5)).toEqual(large);
    expect(qmcNormals(3)).toEqual(large.slice(0, 3));
  });

  test('every coordinate is stratified: one point in each of the equally likely intervals', () => {
    for (const column of qmcNormals(MOST_DIMENSIONS)) {
      expect(new Set([...column].map((value) => Math.floor(POINTS * normalCdf(value)))).size).toBe(POINTS);
    }
  });

  test('coordinates are uncorrelated, up to the last dimension', () => {
    const columns = fromRows(qmcNormals(MOST_DIMENSIONS).map((column) => [...column]));
    const moments = multiplyTransposed(columns, columns).data.map((sum) => sum / POINTS);
    const largest = Math.max(
      ...moments.map((moment, index) => Math.abs(moment - (index % (MOST_DIMENSIONS + 1) === 0 ? 1 : 0))),
    );
    // The largest of as many random draws is about 0.06; a lattice with a bad pair has 0.3.
    expect(largest).toBeLessThan(0.05);
  });

  test('too many dimensions are refused', () => expect(() => qmcNormals(MOST_DIMENSIONS + 1)).toThrow(RangeError));
});
