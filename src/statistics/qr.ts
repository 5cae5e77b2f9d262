/**
 * Householder QR with column scaling and column pivoting.
 *
 * Least squares by the normal equations squares the condition number: on the certified polynomial "Filip" no digit
 * remains. Columns are scaled to unit length first, since the unknowns mix units (mm, mm per mm, turns) and powers, and
 * pivoted so that dependent columns give a small trailing diagonal of R, which defines the numerical rank. Source:
 * Golub & Van Loan, Matrix Computations, chapter 5, "Householder QR" and "QR with Column Pivoting" (from memory).
 */
import { type Matrix, matrix } from './matrix.ts';

/** A Π = Q R with A's columns divided by `scale`. */
export interface Factorisation {
  /** R in the upper triangle, the Householder vectors below and on a separate diagonal. Row-major, m × n. */
  readonly packed: Matrix;
  /** First entries of the Householder vectors; each vector is normalised so that H = I − v vᵀ / v₀. */
  readonly heads: Float64Array;
  /** Length of each original column; 1 where the column is zero. */
  readonly scale: Float64Array;
  /** `order[k]` is the original column at k-th place in R. */
  readonly order: Int32Array;
  /** Number of columns that are independent to rounding: |R_kk| above max(m, n) · 2⁻⁵² · |R_00|. */
  readonly rank: number;
}

/** Factors an m × n matrix, any shape. The argument is not changed. */
export function qr(source: Matrix): Factorisation {
  const { rows, columns } = source;
  const scale = columnLengths(source).map((length) => length || 1);
  const packed = matrix(rows, columns);
  source.data.forEach((entry, index) => (packed.data[index] = entry / scale[index % columns]!));
  const order = Int32Array.from({ length: columns }, (_, column) => column);
  const steps = Math.min(rows, columns);
  const heads = new Float64Array(steps);
  let rank = 0;
  let largest = 0;
  for (let step = 0; step < steps; step++) {
    swapColumns(packed, order, step, longestColumn(packed, step));
    const pivot = reflectColumn(packed, heads, step);
    largest ||= pivot;
    if (pivot <= Math.max(rows, columns) * 2 ** -52 * largest) break;
    rank++;
  }
  return { packed, heads, scale, order, rank };
}

/** Qᵀ · `vector` (length m), overwriting it. */
export function applyTransposedQ(factors: Factorisation, vector: Float64Array): void {
  const { rows, columns, data } = factors.packed;
  for (let step = 0; step < factors.rank; step++) {
    const head = factors.heads[step]!;
    if (head === 0) continue;
    let sum = head * vector[step]!;
    for (let row = step + 1; row < rows; row++) sum += data[row * columns + step]! * vector[row]!;
    const factor = sum / head;
    vector[step]! -= factor * head;
    for (let row = step + 1; row < rows; row++) vector[row]! -= factor * data[row * columns + step]!;
  }
}

/** Solves the leading rank × rank triangle: R x = `right`; x in R's column order, entries past the rank zero. */
export function solveTriangle(factors: Factorisation, right: ArrayLike<number>): Float64Array {
  const { columns, data } = factors.packed;
  const solution = new Float64Array(columns);
  for (let row = factors.rank - 1; row >= 0; row--) {
    let rest = right[row]!;
    for (let column = row + 1; column < factors.rank; column++)
      rest -= data[row * columns + column]! * solution[column]!;
    solution[row] = rest / data[row * columns + row]!;
  }
  return solution;
}

function columnLengths(source: Matrix, fromRow = 0): Float64Array {
  const lengths = new Float64Array(source.columns);
  for (let row = fromRow; row < source.rows; row++) {
    for (let column = 0; column < source.columns; column++)
      lengths[column]! += source.data[row * source.columns + column]! ** 2;
  }
  return lengths.map(Math.sqrt);
}

/**
 * Recomputed at each step rather than downdated: the matrices are small and downdating loses digits by cancellation.
 */
function longestColumn(packed: Matrix, step: number): number {
  const lengths = columnLengths(packed, step);
  let longest = step;
  for (let column = step + 1; column < packed.columns; column++) {
    if (lengths[column]! > lengths[longest]!) longest = column;
  }
  return longest;
}

function swapColumns(packed: Matrix, order: Int32Array, one: number, other: number): void {
  if (one === other) return;
  const { rows, columns, data } = packed;
  for (let row = 0; row < rows; row++) {
    const saved = data[row * columns + one]!;
    data[row * columns + one] = data[row * columns + other]!;
    data[row * columns + other] = saved;
  }
  [order[one], order[other]] = [order[other]!, order[one]!];
}

/** Makes the column zero below the diagonal, applies the reflection to the columns after it, returns |R_kk|. */
function reflectColumn(packed: Matrix, heads: Float64Array, step: number): number {
  const { rows, columns, data } = packed;
  let square = 0;
  for (let row = step; row < rows; row++) square += data[row * columns + step]! ** 2;
  const length = Math.sqrt(square);
  if (length === 0) return 0;
  const top = data[step * columns + step]!;
  // The sign that avoids cancellation. With v scaled by 1/length, v·v / 2 equals v's first entry times its sign.
  const sign = top < 0 ? -1 : 1;
  const head = (sign * top) / length + 1;
  heads[step] = head;
  for (let row = step + 1; row < rows; row++) data[row * columns + step]! *= sign / length;
  for (let column = step + 1; column < columns; column++) {
    let sum = head * data[step * columns + column]!;
    for (let row = step + 1; row < rows; row++) sum += data[row * columns + step]! * data[row * columns + column]!;
    const factor = sum / head;
    data[step * columns + column]! -= factor * head;
    for (let row = step + 1; row < rows; row++) data[row * columns + column]! -= factor * data[row * columns + step]!;
  }
  data[step * columns + step] = -sign * length;
  return length;
}
