/**
 * The innovation of the marks of one cell and its covariance, in groups: one group for each tape. A group *fails its
 * gate* if chance explains such a deviation less than once in a thousand times.
 *
 * Measurements: right and up of a mark on a station's own tape, mm; for a tape on the bed, whose position is unknown,
 * Helmert contrasts of its marks. Covariances in mm².
 */
import {
  chiSquareUpper,
  invertSymmetric,
  matrix,
  multiplyTransposed,
  timesCovariance,
  type Matrix,
  entry,
  fromEntries,
} from '../statistics/index.ts';
import type { Distribution } from './distribution.ts';
import { grouped, sensitivity } from '../machine/index.ts';
import type { LoggedReading } from './logged-reading.ts';

/** Gate: a mark whose p-value is below this is unexplained. */
export const GATE_PROBABILITY = 0.001;

/** Key of a tape on the bed: shots of one cell with the carriages in one place share it. */
export function tapeKey(reading: LoggedReading): string {
  return `${reading.order} ${JSON.stringify(reading.carriages)}`;
}

/** A linear combination of coordinates of marks: `2k` is right of the k-th mark, `2k + 1` its up. */
export interface Contrast {
  readonly terms: readonly { readonly part: number; readonly coefficient: number }[];
  readonly value: number;
}

/** The measurements of one tape: one mark, or the contrasts of all marks of a tape on the bed. */
export interface Group {
  /** Indexes of its readings. */
  readonly readings: readonly number[];
  /** Indexes of its rows among the measurements. */
  readonly rows: readonly number[];
}

export interface Measurement {
  readonly contrasts: readonly Contrast[];
  readonly groups: readonly Group[];
  /** Covariance of the contrasts, from reading noise alone. */
  readonly noise: Matrix;
}

const PARTS = ['right', 'up'] as const;

export function measurement(readings: readonly LoggedReading[]): Measurement {
  const contrasts: Contrast[] = [];
  const groups: Group[] = [];
  const add = (of: readonly number[], some: readonly Contrast[]) => {
    if (some.length > 0) groups.push({ readings: of, rows: some.map((_, k) => contrasts.length + k) });
    contrasts.push(...some);
  };
  readings.forEach((reading, k) => {
    if (reading.height === 0)
      add(
        [k],
        PARTS.flatMap((part, axis): Contrast[] =>
          reading[part] === undefined
            ? []
            : [{ terms: [{ part: 2 * k + axis, coefficient: 1 }], value: reading[part] }],
        ),
      );
  });
  const below = readings.flatMap((reading, k) => (reading.height > 0 ? [{ reading, k }] : []));
  for (const tape of grouped(below, ({ reading }) => tapeKey(reading))) {
    add(
      tape.map(({ k }) => k),
      PARTS.flatMap((part, axis) =>
        helmertContrasts(
          tape.flatMap(({ reading, k }) =>
            reading[part] === undefined ? [] : [{ part: 2 * k + axis, value: reading[part] }],
          ),
        ),
      ),
    );
  }
  return { contrasts, groups, noise: readingCovariance(contrasts, readings) };
}

function readingCovariance(contrasts: readonly Contrast[], readings: readonly LoggedReading[]): Matrix {
  return fromEntries(contrasts.length, contrasts.length, (i, k) =>
    contrasts[i]!.terms.reduce(
      (sum, { part, coefficient }) =>
        sum +
        coefficient *
          (contrasts[k]!.terms.find((term) => term.part === part)?.coefficient ?? 0) *
          readings[part >> 1]!.u ** 2,
      0,
    ),
  );
}

/** Helmert contrasts: n readings with a common unknown offset give n − 1 combinations that do not depend on it. */
function helmertContrasts(read: readonly { readonly part: number; readonly value: number }[]): Contrast[] {
  return read.slice(1).map((last, count) => {
    const before = read.slice(0, count + 1);
    const size = Math.sqrt(before.length * (before.length + 1));
    const terms = [
      ...before.map(({ part }) => ({ part, coefficient: 1 / size })),
      { part: last.part, coefficient: -before.length / size },
    ];
    return { terms, value: (before.reduce((sum, { value }) => sum + value, 0) - before.length * last.value) / size };
  });
}

/** A traced coordinate of a mark, mm, and its derivatives by every unknown. */
export interface Part {
  readonly mark: number;
  readonly slopes: Float64Array;
}

/** Coordinates of all marks in the order of `Contrast.terms`; undefined where the beam misses the plane of a tape. */
function traced(
  at: Pick<Distribution, 'system' | 'values' | 'shifts'>,
  readings: readonly LoggedReading[],
): Part[] | undefined {
  const sensitivities = readings.map((reading) => sensitivity(at, reading));
  return sensitivities.every((mark) => mark !== undefined)
    ? sensitivities.flatMap(({ right, up, byRight, byUp }) => [
        { mark: right, slopes: byRight },
        { mark: up, slopes: byUp },
      ])
    : undefined;
}

/** Jacobian of the contrasts, one row each. */
function jacobian({ contrasts }: Measurement, parts: readonly Part[], count: number): Matrix {
  const slopes = matrix(contrasts.length, count);
  contrasts.forEach(({ terms }, i) => {
    for (const { part, coefficient } of terms) {
      const by = parts[part]!.slopes;
      for (let k = 0; k < count; k++) slopes.data[i * count + k]! += coefficient * by[k]!;
    }
  });
  return slopes;
}

/** Measured contrasts less those of the traced coordinates. */
function residuals({ contrasts }: Measurement, parts: readonly Part[]): Float64Array {
  return Float64Array.from(contrasts, ({ terms, value }) =>
    terms.reduce((residuals, { part, coefficient }) => residuals - coefficient * parts[part]!.mark, value),
  );
}

export interface Innovation extends Pick<Measurement, 'groups' | 'noise'> {
  readonly readings: readonly LoggedReading[];
  /** Traced at the prior, or at the present iterate, for all readings. */
  readonly parts: readonly Part[];
  /** Measured less predicted. */
  readonly residuals: Float64Array;
  /** Covariance of the predicted contrasts, without reading noise. */
  readonly predicted: Matrix;
  readonly jacobian: Matrix;
  /** Jacobian times the covariance of the unknowns. */
  readonly crossCovariance: Matrix;
}

/**
 * The innovation of readings at a prior. Undefined if no coordinate was read, or the beam misses the plane of a tape.
 */
export function innovation(prior: Distribution, readings: readonly LoggedReading[]): Innovation | undefined {
  const measured = measurement(readings);
  const parts = measured.contrasts.length === 0 ? undefined : traced(prior, readings);
  if (!parts) return undefined;
  const by = jacobian(measured, parts, prior.values.length);
  const crossCovariance = timesCovariance(by, prior.covariance);
  return {
    ...measured,
    readings,
    parts,
    residuals: residuals(measured, parts),
    jacobian: by,
    crossCovariance,
    predicted: multiplyTransposed(crossCovariance, by),
  };
}

/** Chi-square and log density of one group, conditional on all other groups of a set. */
export interface Conditional {
  readonly group: Group;
  readonly chiSquare: number;
  readonly logDensity: number;
}

/** Ranks groups, the first to be rejected has the largest rank; and decides whether it is rejected. */
export interface Criterion {
  rank(conditional: Conditional): number;
  rejects(conditional: Conditional, joint: { readonly chiSquare: number; readonly degreesOfFreedom: number }): boolean;
}

/** Rejects a group that is improbable given the others, or the worst of a set that is improbable as a whole. */
export const GATE: Criterion = {
  rank: ({ group, chiSquare }) => -chiSquareUpper(chiSquare, group.rows.length),
  rejects: ({ group, chiSquare }, joint) =>
    chiSquareUpper(chiSquare, group.rows.length) < GATE_PROBABILITY ||
    chiSquareUpper(joint.chiSquare, joint.degreesOfFreedom) < GATE_PROBABILITY,
};

/**
 * The largest set of groups that agree with each other and with the prediction; and the rejected groups, the worst
 * first.
 */
export interface Agreement {
  readonly logDensity: number;
  readonly chiSquare: number;
  readonly retained: readonly Group[];
  readonly rejected: readonly Group[];
}

/** @param covariance of the innovation, reading noise included */
export function agreement(
  { groups, residuals }: Pick<Innovation, 'groups' | 'residuals'>,
  covariance: Matrix,
  { rank, rejects }: Criterion,
): Agreement {
  let retained = groups;
  const rejected: Group[] = [];
  for (;;) {
    const { conditionals, logDensity, joint } = groupStatistics(retained, residuals, covariance);
    const worst = conditionals.reduce<Conditional | undefined>(
      (most, conditional) => (most && rank(most) >= rank(conditional) ? most : conditional),
      undefined,
    );
    if (!worst || !rejects(worst, joint)) return { logDensity, chiSquare: joint.chiSquare, retained, rejected };
    retained = retained.filter((group) => group !== worst.group);
    rejected.push(worst.group);
  }
}

/** The probability of a deviation at least as large, by chance alone. */
export function pValue({ groups, residuals }: Innovation, covariance: Matrix): number {
  const { chiSquare, degreesOfFreedom } = groupStatistics(groups, residuals, covariance).joint;
  return chiSquareUpper(chiSquare, degreesOfFreedom);
}

interface GroupStatistics {
  readonly conditionals: readonly Conditional[];
  readonly logDensity: number;
  readonly joint: { readonly chiSquare: number; readonly degreesOfFreedom: number };
}

const NONE: GroupStatistics = { conditionals: [], logDensity: 0, joint: { chiSquare: 0, degreesOfFreedom: 1 } };

/** With W = S⁻¹, a group conditional on the others deviates by W_gg⁻¹ (W e)_g, with covariance W_gg⁻¹. */
function groupStatistics(groups: readonly Group[], residuals: Float64Array, covariance: Matrix): GroupStatistics {
  const rows = groups.flatMap(({ rows: some }) => some);
  const count = rows.length;
  if (count === 0) return NONE;
  const part = fromEntries(count, count, (i, k) => entry(covariance, rows[i]!, rows[k]!));
  const inverse = invertSymmetric(part);
  if (!inverse) return NONE;
  const weighted = Float64Array.from(rows, (_, i) =>
    rows.reduce((sum, row, k) => sum + entry(inverse, i, k) * residuals[row]!, 0),
  );
  let from = 0;
  const conditionals = groups.map((group): Conditional => {
    const size = group.rows.length;
    const offset = from;
    const back = invertSymmetric(fromEntries(size, size, (i, k) => entry(inverse, offset + i, offset + k)))!;
    let chiSquare = 0;
    for (let i = 0; i < size; i++)
      for (let k = 0; k < size; k++) chiSquare += weighted[from + i]! * entry(back, i, k) * weighted[from + k]!;
    from += size;
    return { group, chiSquare, logDensity: -(size * LOG_2_PI + logDeterminant(back) + chiSquare) / 2 };
  });
  const chiSquare = rows.reduce((sum, row, i) => sum + residuals[row]! * weighted[i]!, 0);
  return {
    conditionals,
    logDensity: -(count * LOG_2_PI + logDeterminant(part) + chiSquare) / 2,
    joint: { chiSquare, degreesOfFreedom: count },
  };
}

const LOG_2_PI = Math.log(2 * Math.PI);

/** Of a positive definite matrix. */
function logDeterminant(matrix: Matrix): number {
  const { rows: size } = matrix;
  const data = matrix.data.slice();
  let sum = 0;
  for (let k = 0; k < size; k++) {
    const pivot = data[k * size + k]!;
    sum += Math.log(pivot);
    for (let i = k + 1; i < size; i++) {
      const factor = data[i * size + k]! / pivot;
      for (let j = k; j < size; j++) data[i * size + j]! -= factor * data[k * size + j]!;
    }
  }
  return sum;
}
