/**
 * Measurement update: an iterated extended Kalman filter through the exact trace, with the covariance in Joseph form
 * (Bar-Shalom, Li and Kirubarajan, Estimation with Applications to Tracking and Navigation, 2001, chapters 5 and 10;
 * from memory). It converges to the result of Gauss–Newton on the prior and these readings (Bell and Cathey, IEEE
 * Trans. Autom. Control 38 (1993) 294; from memory).
 */
import {
  columnsLeftOut,
  CovarianceBuilder,
  multiply,
  solveSymmetric,
  type Covariance,
  type Matrix,
  add,
  entry,
} from '../statistics/index.ts';
import type { Distribution } from './distribution.ts';
import { innovation, type Innovation, type Part } from './innovation.ts';
import type { LoggedReading } from './logged-reading.ts';
import { marksAt } from '../machine/index.ts';

/**
 * Updates by the readings of one cell, which were taken with the machine in one state. Readings beyond any tape are
 * ignored.
 * @param atPrior the innovation of these readings at the prior, if it is known already: at most one batch, none beyond
 * its tape
 */
export function update(before: Distribution, readings: readonly LoggedReading[], atPrior?: Innovation): Distribution {
  if (atPrior) return updateBatch(before, atPrior);
  return inBatches(readings.filter((reading) => !isBeyondTape(before, reading))).reduce(
    (sofar, some) => updateBatch(sofar, innovation(sofar, some)),
    before,
  );
}

export function inBatches(readings: readonly LoggedReading[]): LoggedReading[][] {
  return Array.from({ length: Math.ceil(readings.length / BATCH) }, (_, k) =>
    readings.slice(BATCH * k, BATCH * (k + 1)),
  );
}

/** Readings of one update. A cell may have hundreds, and the work grows with the cube of the batch. */
const BATCH = 12;

/**
 * Maximum distance of a mark on a tape, in apertures. A reading beyond it is a slip of the pen, which a finding
 * reports.
 */
const TAPE_APERTURES = 5;

export function isBeyondTape({ system }: Distribution, { station, height, right = 0, up = 0 }: LoggedReading): boolean {
  return height === 0 && Math.hypot(right, up) > TAPE_APERTURES * system.stations[station]!.element.aperture;
}

/**
 * The update has converged when the exact trace agrees with its linearisation to this fraction of the standard
 * uncertainty of a reading.
 */
const CONVERGED = 0.02;
const MAX_ITERATIONS = 5;

/**
 * One correction: H P; the innovation covariance S = H P Hᵀ + R; and the gain, transposed. One row for each contrast.
 */
interface Correction {
  readonly crossCovariance: Matrix;
  readonly innovationCovariance: Matrix;
  readonly gain: Matrix;
}

function updateBatch(before: Distribution, atPrior: Innovation | undefined): Distribution {
  let { values } = before;
  let correction: Correction | undefined;
  let at = atPrior;
  for (let iteration = 0; at && iteration < MAX_ITERATIONS; iteration++) {
    const { crossCovariance, readings, parts } = at;
    const innovationCovariance = add(at.predicted, at.noise);
    const gain = solveSymmetric(innovationCovariance, crossCovariance);
    if (!gain) break;
    correction = { crossCovariance, innovationCovariance, gain };
    const deviations = deviationsAt(before.values, values, at);
    const next = before.values.slice();
    for (let i = 0; i < deviations.length; i++)
      for (let k = 0; k < next.length; k++) next[k]! += entry(gain, i, k) * deviations[i]!;
    const isConverged = agreesWithTrace(before, readings, parts, values, next);
    values = next;
    if (isConverged) break;
    at = innovation({ ...before, values }, readings);
  }
  return correction ? { ...before, values, covariance: josephForm(before.covariance, correction) } : before;
}

/** The residuals at the prior, by the linearisation at the present iterate. */
function deviationsAt(prior: Float64Array, at: Float64Array, { residuals, jacobian }: Innovation): Float64Array {
  if (at === prior) return residuals;
  return residuals.map((one, i) => {
    let from = one;
    for (let k = 0; k < prior.length; k++) from -= entry(jacobian, i, k) * (prior[k]! - at[k]!);
    return from;
  });
}

function agreesWithTrace(
  before: Distribution,
  readings: readonly LoggedReading[],
  parts: readonly Part[],
  from: Float64Array,
  to: Float64Array,
): boolean {
  const exact = marksAt({ ...before, values: to }, readings);
  return (
    exact !== undefined &&
    parts.every(({ mark, slopes }, i) => {
      let straight = mark;
      for (let k = 0; k < to.length; k++) straight += slopes[k]! * (to[k]! - from[k]!);
      return Math.abs(exact[i]! - straight) < CONVERGED * readings[i >> 1]!.u;
    })
  );
}

/**
 * P − K A − (K A)ᵀ + K S Kᵀ with A = H P, written as P − K A + (K S − Aᵀ) Kᵀ: the last term is a rounding error, so an
 * error of the gain counts only by its square. Of the result only the lower triangle is computed.
 */
function josephForm(before: Covariance, { gain, innovationCovariance, crossCovariance }: Correction): Covariance {
  const [count, columns] = [innovationCovariance.rows, crossCovariance.columns];
  const rest = add(multiply(innovationCovariance, gain), crossCovariance, -1);
  const [gains, crossColumns, remainder, after] = [
    gain.data,
    crossCovariance.data,
    rest.data,
    new CovarianceBuilder(before),
  ];
  const changed = correlated(crossCovariance);
  // Row by row, so that memory is read and written in its order.
  changed.forEach((i, n) => {
    const row = after.row(i, changed[0]!);
    const leftOut = columnsLeftOut(i, row);
    for (let m = 0, at = 0; m < count; m++, at += columns) {
      const [rest, by] = [remainder[at + i]!, gains[at + i]!];
      for (let p = 0; p <= n; p++) {
        const k = changed[p]!;
        row[k - leftOut]! += rest * gains[at + k]! - by * crossColumns[at + k]!;
      }
    }
  });
  return after.result;
}

/** Indexes, ascending, of the unknowns that are correlated with the readings: six of fifty for a first mark. */
function correlated({ rows, columns, data }: Matrix): number[] {
  const unknowns: number[] = [];
  for (let k = 0; k < columns; k++) {
    let row = 0;
    while (row < rows && data[row * columns + k] === 0) row++;
    if (row < rows) unknowns.push(k);
  }
  return unknowns;
}
