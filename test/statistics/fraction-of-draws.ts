/** A referee for probabilities: the share of random draws that are inside. The covariance is factored by ml-matrix. */
import { EigenvalueDecomposition, Matrix as General } from 'ml-matrix';
import { toRows, type Matrix } from '../../src/statistics/index.ts';
import { normalDraws } from './random.ts';

/** Standard error √(p(1 − p)/count): 0.0005 at most for a million. */
export function fractionOfDraws(
  mean: Float64Array,
  covariance: Matrix,
  inside: (x: Float64Array) => boolean,
  count: number,
  seed = 99,
): number {
  const draw = normalDraws(seed);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(new General(toRows(covariance)), {
    assumeSymmetric: true,
  });
  const size = mean.length;
  const root = Float64Array.from(
    { length: size * size },
    (_, k) =>
      eigenvectorMatrix.get(Math.floor(k / size), k % size) * Math.sqrt(Math.max(0, realEigenvalues[k % size]!)),
  );
  const [x, z] = [new Float64Array(size), new Float64Array(size)];
  let hits = 0;
  for (let trial = 0; trial < count; trial++) {
    for (let index = 0; index < size; index++) z[index] = draw();
    for (let row = 0; row < size; row++) {
      let value = mean[row]!;
      for (let column = 0; column < size; column++) value += root[row * size + column]! * z[column]!;
      x[row] = value;
    }
    if (inside(x)) hits++;
  }
  return hits / count;
}
