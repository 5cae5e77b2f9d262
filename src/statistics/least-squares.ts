/**
 * Weighted linear least squares.
 *
 * One routine serves every linear fit: rows are readings, columns unknowns, a prior is one more row. It uses
 * Householder QR (see qr.ts), never the normal equations. The covariance comes from the stated uncertainties and is
 * *not* scaled by the residuals: chi-square tests separately whether the residuals agree with the stated uncertainties.
 * Unknowns that the readings do not determine are listed in the result, not thrown or NaN.
 */
import { type Matrix, matrix } from './matrix.ts';
import { type Factorisation, applyTransposedQ, qr, solveTriangle } from './qr.ts';

/** n = number of unknowns (columns), m = number of readings (rows). */
export interface LeastSquares {
  /** Length n. An entry named in `undetermined` is one of many that fit equally well. */
  readonly coefficients: Float64Array;
  /** n × n, (AᵀWA)⁻¹ with W = diag(1/u²); rows and columns of `undetermined` unknowns have no meaning. */
  readonly covariance: Matrix;
  /** Length m, observed − fitted, in the units of `observed` (not divided by the uncertainty). */
  readonly residuals: Float64Array;
  /** Σ (residual / u)²; without uncertainties the plain sum of squares. */
  readonly chiSquare: number;
  /** m − rank. */
  readonly degreesOfFreedom: number;
  /** Number of independent columns; below n the fit is not unique. */
  readonly rank: number;
  /** Columns whose coefficient the readings do not determine, ascending; empty if rank = n. */
  readonly undetermined: readonly number[];
  /** The reason for the rank. */
  readonly reason: 'full rank' | 'fewer readings than unknowns' | 'dependent columns';
}

/** The coefficient of a free column above which another column counts as free too; columns have unit length. */
const FREE_COEFFICIENT = 1e-9;

/**
 * Minimises Σ ((observed − design · x) / u)².
 *
 * `design` is m × n, `observed` and `standardUncertainty` have length m; uncertainties are positive, in the units of
 * `observed`, and taken as 1 when absent. Throws a RangeError for other lengths or an uncertainty that is not positive.
 * Source: JCGM 100 (GUM) H.3 and ISO/TS 28037:2010 clause 6 are the two-column case; Golub & Van Loan chapter 5 (from
 * memory) for the rest.
 */
export function leastSquares(
  design: Matrix,
  observed: ArrayLike<number>,
  standardUncertainty?: ArrayLike<number>,
): LeastSquares {
  if (observed.length !== design.rows) throw new RangeError(`${design.rows} rows, ${observed.length} observed`);
  const weights = rowWeights(design.rows, standardUncertainty);
  const weighted = matrix(design.rows, design.columns);
  design.data.forEach((entry, index) => (weighted.data[index] = entry * weights[Math.floor(index / design.columns)]!));
  const factors = qr(weighted);
  const right = Float64Array.from(weights, (weight, row) => weight * observed[row]!);
  applyTransposedQ(factors, right);
  const coefficients = inCallersOrder(factors, solveTriangle(factors, right));
  const residuals = residualsOf(design, observed, coefficients);
  return {
    coefficients,
    covariance: covarianceOf(factors),
    residuals,
    chiSquare: residuals.reduce((sum, residual, row) => sum + (residual * weights[row]!) ** 2, 0),
    degreesOfFreedom: design.rows - factors.rank,
    rank: factors.rank,
    undetermined: undeterminedColumns(factors),
    reason: reasonFor(design, factors.rank),
  };
}

function rowWeights(rows: number, uncertainty?: ArrayLike<number>): Float64Array {
  if (uncertainty && uncertainty.length !== rows)
    throw new RangeError(`${rows} rows, ${uncertainty.length} uncertainties`);
  return Float64Array.from({ length: rows }, (_, row) => {
    const u = uncertainty?.[row] ?? 1;
    if (!(u > 0)) throw new RangeError(`standard uncertainty ${u} of row ${row} is not positive`);
    return 1 / u;
  });
}

/** Undoes the pivoting and the column scaling. */
function inCallersOrder(factors: Factorisation, solution: Float64Array): Float64Array {
  const result = new Float64Array(solution.length);
  factors.order.forEach((column, place) => (result[column] = solution[place]! / factors.scale[column]!));
  return result;
}

/** From the original rows, not from Qᵀb: this keeps the small residuals of a nearly exact fit accurate. */
function residualsOf(design: Matrix, observed: ArrayLike<number>, coefficients: Float64Array): Float64Array {
  return Float64Array.from({ length: design.rows }, (_, row) => {
    let fitted = 0;
    for (let column = 0; column < design.columns; column++) {
      fitted += design.data[row * design.columns + column]! * coefficients[column]!;
    }
    return observed[row]! - fitted;
  });
}

/** R⁻¹ R⁻ᵀ, column by column of R⁻¹, so that AᵀWA is never formed. */
function covarianceOf(factors: Factorisation): Matrix {
  const size = factors.order.length;
  const result = matrix(size, size);
  const unit = new Float64Array(size);
  for (let place = 0; place < factors.rank; place++) {
    unit.fill(0)[place] = 1;
    const column = inCallersOrder(factors, solveTriangle(factors, unit));
    for (let one = 0; one < size; one++) {
      for (let other = 0; other < size; other++) result.data[one * size + other]! += column[one]! * column[other]!;
    }
  }
  return result;
}

/**
 * Each column past the rank is a combination R₁₁⁻¹ R₁₂ of the leading ones; all columns of the combination are
 * undetermined.
 */
function undeterminedColumns(factors: Factorisation): number[] {
  const { packed, order, rank } = factors;
  const free = new Set<number>();
  for (let place = rank; place < packed.columns; place++) {
    free.add(order[place]!);
    const tail = Float64Array.from({ length: rank }, (_, row) => packed.data[row * packed.columns + place]!);
    solveTriangle(factors, tail).forEach((coefficient, index) => {
      if (Math.abs(coefficient) > FREE_COEFFICIENT) free.add(order[index]!);
    });
  }
  return [...free].sort((one, other) => one - other);
}

function reasonFor(design: Matrix, rank: number): LeastSquares['reason'] {
  if (rank === design.columns) return 'full rank';
  return rank === design.rows ? 'fewer readings than unknowns' : 'dependent columns';
}
