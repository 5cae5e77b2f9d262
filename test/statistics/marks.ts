/** Distances of several marks at once, for tests. */
import { fromRows, multiplyTransposed, type Distance, type Matrix } from '../../src/statistics/index.ts';
import { normalDraws } from './random.ts';

/** Each of `count` marks within `most` of the middle. */
export const fromMiddle = (count: number, most: number): Distance[] =>
  Array.from({ length: count }, (_, one) => ({ one, inverseLimit: 1 / most }));

/** A covariance of full rank with correlations of all sizes. */
export function correlated(size: number, seed: number): Matrix {
  const draw = normalDraws(seed);
  const factor = fromRows(Array.from({ length: size }, () => Array.from({ length: size + 2 }, draw)));
  return multiplyTransposed(factor, factor);
}
