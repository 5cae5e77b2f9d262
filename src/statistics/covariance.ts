/**
 * The covariance of many unknowns as a filter passes it from step to step, in skyline storage: of each row of the lower
 * triangle, the entries from the first that is not zero to the diagonal (Bathe, Finite Element Procedures, 1996, section
 * 8.2.3; from memory). Rows are immutable: an update of six unknowns of fifty copies six rows and shares the others with
 * the step before.
 *
 * Rows are plain arrays: each takes some hundred bytes, for which typed arrays, which are allocated outside the heap,
 * cost more than the copy.
 */
import { matrix, type Matrix } from './matrix.ts';

/** Symmetric: row i ends with entry (i, i); what it lacks at its beginning is zero. */
export type Covariance = readonly (readonly number[])[];

/** The covariance of independent unknowns. */
export function diagonal(variances: ArrayLike<number>): Covariance {
  return Array.from(variances, (variance) => [variance]);
}

/** The entry at a row and a column, both from 0. */
export function covarianceBetween(covariance: Covariance, one: number, other: number): number {
  if (one < other) return covarianceBetween(covariance, other, one);
  return covariance[one]![other - columnsLeftOut(one, covariance[one]!)] ?? 0;
}

/** The entry at the diagonal: the variance of one unknown. */
export function varianceAt(covariance: Covariance, index: number): number {
  return covariance[index]!.at(-1)!;
}

/** The number of zeros at the beginning of a row that are not stored: entry (i, k) is at k less this number. */
export function columnsLeftOut(index: number, row: readonly number[]): number {
  return index + 1 - row.length;
}

/** The product `left` · `covariance`. Throws a RangeError unless left has one column for each unknown. */
export function timesCovariance(left: Matrix, covariance: Covariance): Matrix {
  const { rows, columns, data } = left;
  if (columns !== covariance.length) throw new RangeError(`${columns} columns for ${covariance.length} unknowns`);
  const result = matrix(rows, columns);
  for (let row = 0, start = 0; row < rows; row++, start += columns) {
    const ranges = nonzero(data, start, start + columns);
    const end = ranges.at(-1)?.end ?? start;
    for (let column = 0; column < columns; column++) {
      const lower = covariance[column]!;
      const offset = start + columnsLeftOut(column, lower);
      if (offset >= end) continue;
      let sum = 0;
      for (const range of ranges) {
        const until = Math.min(range.end, start + column + 1);
        for (let k = Math.max(range.begin, offset); k < until; k++) sum += data[k]! * lower[k - offset]!;
      }
      result.data[start + column] = sum;
    }
    for (const range of ranges)
      for (let k = range.begin; k < range.end; k++) {
        const factor = data[k]!;
        const lower = covariance[k - start]!;
        const offset = start + columnsLeftOut(k - start, lower);
        for (let column = 0; column < lower.length - 1; column++)
          result.data[offset + column]! += factor * lower[column]!;
      }
  }
  return result;
}

/**
 * The entries from `begin` up to `end` that are not zero, as ranges of indexes. Jacobians of one reading touch few of
 * the unknowns: most of their entries are exactly zero.
 */
function nonzero(data: Float64Array, begin: number, end: number): { readonly begin: number; readonly end: number }[] {
  const ranges: { begin: number; end: number }[] = [];
  for (let k = begin; k < end; k++) {
    if (data[k] === 0) continue;
    const last = ranges.at(-1);
    if (last?.end === k) last.end = k + 1;
    else ranges.push({ begin: k, end: k + 1 });
  }
  return ranges;
}

/** Builds a covariance from another one, which stays unchanged: a row is copied when it is first requested. */
export class CovarianceBuilder {
  readonly #before: Covariance;
  readonly #rows: (readonly number[])[];

  constructor(before: Covariance) {
    this.#before = before;
    this.#rows = before.slice();
  }

  /** The stored row, with an entry at column `first` at least, writable until `result` is passed on. */
  row(index: number, first: number): number[] {
    const row = this.#rows[index]!;
    const missing = columnsLeftOut(index, row) - first;
    if (missing > 0) this.#rows[index] = [...Array.from({ length: missing }, () => 0), ...row];
    else if (row === this.#before[index]) this.#rows[index] = row.slice();
    return this.#rows[index] as number[];
  }

  /** Sets the entry at a row and a column, both from 0. */
  set(one: number, other: number, covariance: number): void {
    const [index, column] = one < other ? [other, one] : [one, other];
    const row = this.row(index, column);
    row[column - columnsLeftOut(index, row)] = covariance;
  }

  /** Adds to the entry at a row and a column, both from 0. */
  add(one: number, other: number, covariance: number): void {
    this.set(one, other, covarianceBetween(this.#rows, one, other) + covariance);
  }

  get result(): Covariance {
    return this.#rows;
  }
}
