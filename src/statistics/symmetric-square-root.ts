/**
 * A factor of a covariance matrix that may be singular, for drawing samples from it.
 *
 * Built so because the session's covariances are often only positive *semi*-definite: an unknown that is exactly known has
 * a zero row, two stops that share one place are one number written twice. Plain Cholesky divides by the zero pivot. Here
 * the matrix is first scaled to unit variances (mm and radian differ by 10⁶ in variance, and "small" must not depend on the
 * unit), then factored by taking the largest remaining pivot first and stopping when only rounding is left.
 * Source: Higham, Accuracy and Stability of Numerical Algorithms, 10.3, complete pivoting (chapter from memory).
 */
import { type Matrix, matrix } from './matrix.ts';

/** What may be left of a unit variance by the rounding of a long filter run, and is then taken as zero. */
const REMAINDER = 1e-12;

/**
 * A `size` × `size` matrix L with L Lᵀ = `symmetric`, its rank's worth of columns first and zero columns after.
 * L is not triangular in general: rows keep the caller's order. Undefined when the matrix has a clearly negative
 * direction (or a NaN), so that no sample is drawn from nonsense.
 */
export function symmetricSquareRoot(symmetric: Matrix): Matrix | undefined {
  const size = symmetric.rows;
  if (size !== symmetric.columns) throw new RangeError(`${size} × ${symmetric.columns} is not square`);
  const deviations = standardDeviations(symmetric);
  if (deviations === undefined) return undefined;
  const rest = scaled(symmetric, deviations);
  const factor = matrix(size, size);
  for (let column = 0; column < size; column++) {
    const pivot = largestPivot(rest);
    const variance = rest.data[pivot * (size + 1)]!;
    if (variance <= REMAINDER) break;
    const root = Math.sqrt(variance);
    for (let row = 0; row < size; row++) factor.data[row * size + column] = rest.data[row * size + pivot]! / root;
    removeColumn(rest, factor, column, pivot);
  }
  // In a semi-definite matrix no entry exceeds the diagonal's; anything larger left over is a negative direction.
  if (!rest.data.every((entry) => Math.abs(entry) <= size * REMAINDER)) return undefined;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) factor.data[row * size + column]! *= deviations[row]!;
  }
  return factor;
}

/** Square roots of the diagonal; undefined where a variance is negative or not a number. */
function standardDeviations(symmetric: Matrix): Float64Array | undefined {
  const size = symmetric.rows;
  const deviations = new Float64Array(size);
  for (let index = 0; index < size; index++) deviations[index] = Math.sqrt(symmetric.data[index * (size + 1)]!);
  return deviations.some(Number.isNaN) ? undefined : deviations;
}

/** The correlation matrix. A zero variance must come with a zero row: what is not zero there is kept, and refused later. */
function scaled(symmetric: Matrix, deviations: Float64Array): Matrix {
  const size = symmetric.rows;
  const result = matrix(size, size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const scale = (deviations[row]! || 1) * (deviations[column]! || 1);
      result.data[row * size + column] = symmetric.data[row * size + column]! / scale;
    }
  }
  return result;
}

function largestPivot(rest: Matrix): number {
  let largest = 0;
  for (let index = 1; index < rest.rows; index++) {
    if (rest.data[index * (rest.rows + 1)]! > rest.data[largest * (rest.rows + 1)]!) largest = index;
  }
  return largest;
}

/** Subtracts the outer product of one factor column; the pivot's own row and column are then zero and set so exactly. */
function removeColumn(rest: Matrix, factor: Matrix, column: number, pivot: number): void {
  const size = rest.rows;
  for (let row = 0; row < size; row++) {
    const left = factor.data[row * size + column]!;
    if (left === 0) continue;
    for (let other = 0; other < size; other++) rest.data[row * size + other]! -= left * factor.data[other * size + column]!;
  }
  for (let index = 0; index < size; index++) {
    rest.data[pivot * size + index] = 0;
    rest.data[index * size + pivot] = 0;
  }
}
