/**
 * The probability that several distances between uncertain points of the plane are all within their limits.
 *
 * The region is an intersection of (elliptic) cylinders: convex, and without a formula. Every straight line has one
 * interval in it, and the normal probability of an interval is a difference of two cdfs. So one direction, the one that
 * matters most for the limits, is integrated exactly, and the others over a fixed lattice; the error is a quarter of
 * that of counting as many points inside. The same arguments give the same result. Conditioning on all but one
 * direction: A. Genz and F. Bretz, Computation of Multivariate Normal and t Probabilities, 2009, 4.1 (from memory).
 */
import { discProbability } from './disc.ts';
import { difference, certainOutcome, type Difference, type Distance } from './distance.ts';
import type { Matrix } from './matrix.ts';
import { normalCdfByTable } from './normal-table.ts';
import { POINTS, qmcNormals } from './qmc-normals.ts';

/** Probabilities that groups of distances are within their limits. */
export interface Within {
  /** The probability that all distances are within their limits. */
  readonly joint: number;
  /** The probability that all distances of a group are. */
  readonly each: readonly number[];
}

/**
 * `mean` and `covariance` as in `Difference`. Absolute error below 0.003 for up to six correlated points, typically a
 * tenth of it; exact if only one distance is undecided.
 */
export function distancesWithin(
  mean: Float64Array,
  covariance: Matrix,
  groups: readonly (readonly Distance[])[],
): Within {
  const outcomes = groups.map((group) => undecidedOf(group, mean, covariance));
  const undecided = outcomes.filter((group): group is readonly UndecidedDistance[] => typeof group !== 'number');
  const [joint, ...lined] = undecided.flat().length > 1 ? alongLines(mean, covariance, undecided) : [1];
  const each = outcomes.map((group) => {
    if (typeof group === 'number') return group;
    const byLines = lined[undecided.indexOf(group)];
    return group.length === 1
      ? discProbability(group[0]!.mean, group[0]!.covariance, 1 / group[0]!.inverseLimit)
      : byLines!;
  });
  return { joint: Math.min(undecided.length > 1 ? joint! : 1, ...each), each };
}

type UndecidedDistance = Distance & Difference;

/** The undecided distances of a group; or 1 or 0 if the group is decided. */
function undecidedOf(
  group: readonly Distance[],
  mean: Float64Array,
  covariance: Matrix,
): readonly UndecidedDistance[] | 0 | 1 {
  const undecided: UndecidedDistance[] = [];
  for (const distance of group) {
    const separation = difference(distance, mean, covariance);
    const certain = certainOutcome(distance, separation);
    if (certain === 0) return 0;
    if (certain === undefined) undecided.push({ ...distance, ...separation });
  }
  return undecided.length === 0 ? 1 : undecided;
}

/** The largest fraction of a distance's weight that a direction may have and be left out. */
const NEGLIGIBLE = 1e-4;
/** Weights within this ratio are equal: rounding must not choose between them. */
const TIE = 1 + 1e-9;

/**
 * Vectors v with Σ v vᵀ = covariance, in the order of their importance for the distances: a Cholesky factorisation
 * whose next pivot is the component of a distance with the largest variance relative to its margin. They point towards
 * the origin there, so that a mirrored problem has mirrored points.
 */
function directions({ rows: size, data }: Matrix, distances: readonly UndecidedDistance[]): Float64Array[] {
  const rest = data.slice();
  const variance = (i: number, k: number) =>
    rest[i * size + i]! + (k < 0 ? 0 : rest[k * size + k]! - 2 * rest[i * size + k]!);
  const parts = distances.flatMap(({ one, other, inverseLimit, mean, covariance: [xx, , yy] }) => {
    const weight = 1 / ((xx + yy) / 2 + (1 / inverseLimit - Math.hypot(...mean)) ** 2);
    return [0, 1].map((axis) => ({
      i: 2 * one + axis,
      k: other === undefined ? -1 : 2 * other + axis,
      weight,
      outwards: mean[axis]! > 0,
    }));
  });
  const vectors: Float64Array[] = [];
  while (vectors.length < size) {
    let most = NEGLIGIBLE;
    let pivot: (typeof parts)[number] | undefined;
    for (const part of parts) {
      const contribution = part.weight * variance(part.i, part.k);
      if (contribution > most * TIE) [most, pivot] = [contribution, part];
    }
    if (!pivot) break;
    const { i, k, outwards } = pivot;
    const scale = (outwards ? -1 : 1) / Math.sqrt(variance(i, k));
    const vector = Float64Array.from(
      { length: size },
      (_, row) => scale * (rest[row * size + i]! - (k < 0 ? 0 : rest[row * size + k]!)),
    );
    for (let row = 0; row < size; row++)
      for (let column = 0; column < size; column++) rest[row * size + column]! -= vector[row]! * vector[column]!;
    vectors.push(vector);
  }
  return vectors;
}

/** One distance along a line. */
interface Chord {
  /** Indexes at which its points begin in the vector; the origin comes after all others. */
  readonly from: number;
  readonly to: number;
  /** Its change along the line, and the square of that. */
  readonly x: number;
  readonly y: number;
  readonly square: number;
  /** The square of the limit. */
  readonly limit: number;
}

/** A change along the line below this, as a fraction of the limit, is zero. */
const STILL = 1e-10;

function chordAlong({ one, other, inverseLimit }: Distance, along: Float64Array): Chord {
  const from = 2 * one;
  const to = other === undefined ? along.length : 2 * other;
  const x = along[from]! - (along[to] ?? 0);
  const y = along[from + 1]! - (along[to + 1] ?? 0);
  const square = Math.hypot(x, y) * inverseLimit < STILL ? 0 : x * x + y * y;
  return { from, to, x, y, square, limit: 1 / inverseLimit ** 2 };
}

/** The joint probability of all groups, then that of each. */
function alongLines(
  mean: Float64Array,
  covariance: Matrix,
  groups: readonly (readonly UndecidedDistance[])[],
): number[] {
  const [along = new Float64Array(mean.length), ...across] = directions(covariance, groups.flat());
  const points = qmcNormals(across.length);
  const chords = groups.map((group) => group.map((distance) => chordAlong(distance, along)));
  const each = new Float64Array(groups.length);
  let joint = 0;
  const at = new Float64Array(mean.length + 2);
  const stretch = { low: 0, high: 0 };
  for (let point = 0; point < POINTS; point++) {
    place(at, mean, across, points, point);
    let below = 0;
    let upTo = 1;
    for (let k = 0; k < chords.length; k++) {
      cut(stretch, chords[k]!, at);
      if (stretch.low >= stretch.high) {
        upTo = 0;
        continue;
      }
      const low = normalCdfByTable(stretch.low);
      const high = normalCdfByTable(stretch.high);
      each[k]! += high - low;
      if (low > below) below = low;
      if (high < upTo) upTo = high;
    }
    if (upTo > below) joint += upTo - below;
  }
  return [joint / POINTS, ...[...each].map((sum) => sum / POINTS)];
}

/** The point of the line from which its intervals are measured. */
function place(
  at: Float64Array,
  mean: Float64Array,
  across: readonly Float64Array[],
  points: readonly Float64Array[],
  point: number,
): void {
  const size = mean.length;
  for (let index = 0; index < size; index++) at[index] = mean[index]!;
  for (let column = 0; column < across.length; column++) {
    const vector = across[column]!;
    const by = points[column]![point]!;
    for (let index = 0; index < size; index++) at[index]! += by * vector[index]!;
  }
}

/**
 * The interval of the line in which all distances of a group are within their limits: from `low` to `high`, empty
 * unless `high` is above `low`.
 */
function cut(stretch: { low: number; high: number }, chords: readonly Chord[], at: Float64Array): void {
  stretch.low = -Infinity;
  stretch.high = Infinity;
  for (let k = 0; k < chords.length && stretch.low < stretch.high; k++) {
    const { from, to, x, y, square, limit } = chords[k]!;
    const right = at[from]! - at[to]!;
    const up = at[from + 1]! - at[to + 1]!;
    const beyond = right * right + up * up - limit;
    const slope = right * x + up * y;
    const root = slope * slope - square * beyond;
    if (square === 0 ? beyond > 0 : root < 0) stretch.high = -Infinity;
    else if (square > 0) {
      const half = Math.sqrt(root);
      stretch.low = Math.max(stretch.low, (-slope - half) / square);
      stretch.high = Math.min(stretch.high, (half - slope) / square);
    }
  }
}
