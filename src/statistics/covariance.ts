/**
 * The covariance of many unknowns, one row each, as a filter passes it from step to step. Rows are immutable: an update
 * of six unknowns of fifty copies six rows and shares the others with the step before.
 *
 * Rows are plain arrays: each takes some hundred bytes, for which typed arrays, which are allocated outside the heap,
 * cost more than the copy.
 */
import { matrix, type Matrix } from './matrix.ts';

/** Symmetric: entry (i, k) is `covariance[i][k]`. */
export type Covariance = readonly (readonly number[])[];

/** The covariance of independent unknowns. */
export function diagonal(variances: ArrayLike<number>): Covariance {
  const none = Array.from(variances, () => 0);
  return Array.from(variances, (variance, k) => none.with(k, variance));
}

/** The product `left` · `covariance`. Throws a RangeError unless left has one column for each unknown. */
export function timesCovariance(left: Matrix, covariance: Covariance): Matrix {
  const { rows, columns, data } = left;
  if (columns !== covariance.length) throw new RangeError(`${columns} columns for ${covariance.length} unknowns`);
  const result = matrix(rows, columns);
  for (let row = 0, start = 0; row < rows; row++, start += columns) {
    for (let inner = 0; inner < columns; inner++) {
      const factor = data[start + inner]!;
      // Jacobians of one reading touch few of the unknowns: most factors are exactly zero.
      if (factor === 0) continue;
      const from = covariance[inner]!;
      for (let column = 0; column < columns; column++) result.data[start + column]! += factor * from[column]!;
    }
  }
  return result;
}

/** Builds a covariance from another one, which stays unchanged: a row is copied when it is first requested. */
export class CovarianceBuilder {
  readonly #before: Covariance;
  readonly #rows: (readonly number[])[];

  constructor(before: Covariance) {
    this.#before = before;
    this.#rows = before.slice();
  }

  /** The row, writable until `result` is passed on. */
  row(index: number): number[] {
    if (this.#rows[index] === this.#before[index]) this.#rows[index] = this.#before[index]!.slice();
    return this.#rows[index] as number[];
  }

  get result(): Covariance {
    return this.#rows;
  }
}
