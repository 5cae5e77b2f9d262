/**
 * Fits, covariances, distributions and conformance probabilities. Plain numbers in any one unit; independent of the
 * machine.
 */
export {
  type Matrix,
  fromRows,
  identity,
  matrix,
  multiply,
  multiplyTransposed,
  toRows,
  transpose,
  add,
  entry,
  fromEntries,
  variance,
  varianceOfDifference,
} from './matrix.ts';
export {
  type Covariance,
  covarianceBetween,
  CovarianceBuilder,
  columnsLeftOut,
  diagonal,
  timesCovariance,
  varianceAt,
} from './covariance.ts';
export { cholesky, invertSymmetric, solveSymmetric } from './cholesky.ts';
export { type LeastSquares, leastSquares } from './least-squares.ts';
export { type Line, type NoLine, lineFit } from './line-fit.ts';
export { pooledVariance, sampleVariance } from './scatter.ts';
export { normalBetween, normalCdf, normalQuantile } from './normal.ts';
export { normalCdfByTable } from './normal-table.ts';
export { chiSquareCdf, chiSquareQuantile, chiSquareUpper } from './chi-square.ts';
export { noncentralChiSquareCdf } from './noncentral-chi-square.ts';
export { studentQuantile } from './student.ts';
export { discProbability, riceCdf } from './disc.ts';
export { type Distance, smallestProbability } from './distance.ts';
export { type Within, distancesWithin } from './distances.ts';
export { MOST_DIMENSIONS, POINTS, qmcNormals } from './qmc-normals.ts';
