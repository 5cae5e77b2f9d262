/**
 * Dense matrices as one flat Float64Array, row after row.
 *
 * The filter's inner loop multiplies and solves thousands of times a session: a flat typed array is several times
 * faster than arrays of arrays or a general matrix package. (`covariance.ts` has the matrix that the filter passes on.)
 * Entries have any units (mm, radian, turn). All operations return new matrices and leave their arguments alone. Wrong
 * shapes are a programmer's error and throw a RangeError.
 */

/** Row-major: entry (row, column) is `data[row * columns + column]`. */
export interface Matrix {
  readonly rows: number;
  readonly columns: number;
  readonly data: Float64Array;
}

/** A `rows` × `columns` matrix of zeros, or over `data` (row-major, not copied, length rows · columns). */
export function matrix(rows: number, columns: number, data = new Float64Array(rows * columns)): Matrix {
  if (data.length !== rows * columns) {
    throw new RangeError(`a ${rows} × ${columns} matrix has ${rows * columns} entries, not ${data.length}`);
  }
  return { rows, columns, data };
}

/** A `rows` × `columns` matrix of the entries that a function computes from row and column, both from 0. */
export function fromEntries(rows: number, columns: number, compute: (row: number, column: number) => number): Matrix {
  const result = matrix(rows, columns);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) result.data[row * columns + column] = compute(row, column);
  return result;
}

/** The entry at a row and column, both from 0. */
export function entry({ data, columns }: Matrix, row: number, column: number): number {
  return data[row * columns + column]!;
}

/** The diagonal entry of a covariance: the variance of one quantity. */
export function variance(covariance: Matrix, index: number): number {
  return entry(covariance, index, index);
}

/** The variance of the difference of two quantities, from their covariance. */
export function varianceOfDifference(covariance: Matrix, one: number, other: number): number {
  return variance(covariance, one) + variance(covariance, other) - 2 * entry(covariance, one, other);
}

/** The sum of two matrices of one shape, the second times a factor. */
export function add(one: Matrix, other: Matrix, factor = 1): Matrix {
  if (one.rows !== other.rows || one.columns !== other.columns)
    throw new RangeError(`${one.rows} × ${one.columns} and ${other.rows} × ${other.columns} matrices`);
  return matrix(
    one.rows,
    one.columns,
    one.data.map((value, k) => value + factor * other.data[k]!),
  );
}

/** From an array of equally long rows. No rows at all make a 0 × 0 matrix. */
export function fromRows(rows: readonly ArrayLike<number>[]): Matrix {
  const columns = rows[0]?.length ?? 0;
  const result = matrix(rows.length, columns);
  rows.forEach((row, index) => {
    if (row.length !== columns)
      throw new RangeError(`row ${index} has ${row.length} entries, the first has ${columns}`);
    result.data.set(row, index * columns);
  });
  return result;
}

/** The rows as plain arrays. */
export function toRows(source: Matrix): number[][] {
  return Array.from({ length: source.rows }, (_, row) =>
    Array.from(source.data.subarray(row * source.columns, (row + 1) * source.columns)),
  );
}

/** The `size` × `size` matrix with ones on its diagonal. */
export function identity(size: number): Matrix {
  const result = matrix(size, size);
  for (let index = 0; index < size; index++) result.data[index * (size + 1)] = 1;
  return result;
}

/** rows × columns → columns × rows. */
export function transpose(source: Matrix): Matrix {
  const { rows, columns, data } = source;
  const result = matrix(columns, rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) result.data[column * rows + row] = data[row * columns + column]!;
  }
  return result;
}

/** The product `left` · `right`; left's columns must equal right's rows. */
export function multiply(left: Matrix, right: Matrix): Matrix {
  if (left.columns !== right.rows) {
    throw new RangeError(`cannot multiply ${left.rows} × ${left.columns} by ${right.rows} × ${right.columns}`);
  }
  const result = matrix(left.rows, right.columns);
  for (let row = 0; row < left.rows; row++) {
    const start = row * right.columns;
    for (let inner = 0; inner < left.columns; inner++) {
      const factor = left.data[row * left.columns + inner]!;
      // Designs have many zeros.
      if (factor === 0) continue;
      const from = inner * right.columns;
      for (let column = 0; column < right.columns; column++) {
        result.data[start + column]! += factor * right.data[from + column]!;
      }
    }
  }
  return result;
}

/**
 * The product `left` · `right`ᵀ without forming the transpose; both must have the same number of columns.
 * `multiplyTransposed(L, L)` is the covariance of a factor, `multiplyTransposed(multiply(J, P), J)` carries P through
 * J.
 */
export function multiplyTransposed(left: Matrix, right: Matrix): Matrix {
  if (left.columns !== right.columns) {
    throw new RangeError(`cannot multiply ${left.rows} × ${left.columns} by (${right.rows} × ${right.columns})ᵀ`);
  }
  const result = matrix(left.rows, right.rows);
  const inner = left.columns;
  for (let row = 0; row < left.rows; row++) {
    for (let column = 0; column < right.rows; column++) {
      let sum = 0;
      for (let index = 0; index < inner; index++)
        sum += left.data[row * inner + index]! * right.data[column * inner + index]!;
      result.data[row * right.rows + column] = sum;
    }
  }
  return result;
}
