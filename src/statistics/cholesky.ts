/**
 * Cholesky factorisation of symmetric matrices, solution of equations and inversion with it.
 *
 * It is used because every covariance and every information matrix of the estimator is symmetric: Cholesky needs half
 * the work of elimination, needs no pivoting, and its failure *is* the test for "not positive definite". The unknowns
 * mix units (mm, radian, turns), so a pivot is compared with its own diagonal entry: the result does not depend on the
 * units.
 *
 * Only the lower triangle is read; the caller guarantees symmetry. Source: Golub & Van Loan, Matrix Computations,
 * chapter 4, "Positive Definite Systems" (chapter from memory).
 */
import { type Matrix, identity, matrix } from './matrix.ts';

/** A pivot of less than this fraction (times the size) of its diagonal entry is rounding noise. */
const PIVOT_TOLERANCE = 2 ** -52;

/** The lower triangular L with L Lᵀ = `symmetric`; undefined when that is not positive definite to rounding. */
export function cholesky(symmetric: Matrix): Matrix | undefined {
  const size = requireSquare(symmetric);
  const source = symmetric.data;
  const lower = matrix(size, size);
  const data = lower.data;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let rest = source[row * size + column]!;
      for (let index = 0; index < column; index++) rest -= data[row * size + index]! * data[column * size + index]!;
      if (column < row) {
        data[row * size + column] = rest / data[column * size + column]!;
      } else {
        // Written so that a NaN on the diagonal fails too.
        if (!(rest > size * PIVOT_TOLERANCE * source[row * size + row]!)) return undefined;
        data[row * size + row] = Math.sqrt(rest);
      }
    }
  }
  return lower;
}

/**
 * X with `symmetric` · X = `right`, where `right` holds one right-hand side per column (rows = size).
 * Undefined when `symmetric` is not positive definite.
 */
export function solveSymmetric(symmetric: Matrix, right: Matrix): Matrix | undefined {
  const size = requireSquare(symmetric);
  if (right.rows !== size) throw new RangeError(`${right.rows} right-hand rows for ${size} equations`);
  const lower = cholesky(symmetric);
  if (lower === undefined) return undefined;
  const solution = matrix(size, right.columns, right.data.slice());
  substituteForward(lower, solution);
  substituteBackward(lower, solution);
  return solution;
}

/** The inverse, exactly symmetric; undefined when `symmetric` is not positive definite. */
export function invertSymmetric(symmetric: Matrix): Matrix | undefined {
  const inverse = solveSymmetric(symmetric, identity(symmetric.rows));
  if (inverse === undefined) return undefined;
  const { rows: size, data } = inverse;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < row; column++) {
      // The two triangles differ in the last bits. A filter would accumulate such an asymmetry.
      const mean = (data[row * size + column]! + data[column * size + row]!) / 2;
      data[row * size + column] = mean;
      data[column * size + row] = mean;
    }
  }
  return inverse;
}

/** L Y = B, overwriting B. */
function substituteForward(lower: Matrix, target: Matrix): void {
  const { rows: size, columns, data } = target;
  for (let row = 0; row < size; row++) {
    for (let index = 0; index < row; index++) subtractRow(data, columns, row, index, lower.data[row * size + index]!);
    divideRow(data, columns, row, lower.data[row * size + row]!);
  }
}

/** Lᵀ X = Y, overwriting Y. */
function substituteBackward(lower: Matrix, target: Matrix): void {
  const { rows: size, columns, data } = target;
  for (let row = size - 1; row >= 0; row--) {
    for (let index = row + 1; index < size; index++)
      subtractRow(data, columns, row, index, lower.data[index * size + row]!);
    divideRow(data, columns, row, lower.data[row * size + row]!);
  }
}

function subtractRow(data: Float64Array, columns: number, row: number, other: number, factor: number): void {
  if (factor === 0) return;
  for (let column = 0; column < columns; column++)
    data[row * columns + column]! -= factor * data[other * columns + column]!;
}

function divideRow(data: Float64Array, columns: number, row: number, divisor: number): void {
  for (let column = 0; column < columns; column++) data[row * columns + column]! /= divisor;
}

function requireSquare(source: Matrix): number {
  if (source.rows !== source.columns) throw new RangeError(`${source.rows} × ${source.columns} is not square`);
  return source.rows;
}
