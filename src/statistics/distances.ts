/**
 * The probability that several distances between uncertain points of the plane are all within their limits.
 *
 * The region is an intersection of (elliptic) cylinders: convex, and without a formula. Every straight line has one stretch
 * in it, and what a normal distribution gives a stretch is known. So one direction, the one that counts most for the limits,
 * is integrated by formula, and the others by a fixed set of evenly spread points; the error is a quarter of what counting
 * as many points inside leaves. Same arguments, same result, and nothing flickers. Conditioning on all but one direction:
 * A. Genz and F. Bretz, Computation of Multivariate Normal and t Probabilities, 2009, 4.1 (from memory).
 */
import { discProbability } from './disc.ts';
import { difference, certainOutcome, type Difference, type Distance } from './distance.ts';
import type { Matrix } from './matrix.ts';
import { normalCdfByTable } from './normal-table.ts';
import { POINTS, qmcNormals } from './qmc-normals.ts';

export interface Within {
  /** That all distances are within. */
  readonly joint: number;
  /** That all of one group are. */
  readonly each: readonly number[];
}

/**
 * `mean` and `covariance` as in `Difference`. Absolute error below 0.003 for up to six points that all depend on each other,
 * a tenth of it as a rule; by formula, and exact, where only one distance is in doubt.
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

/** The distances of a group of which it is not plain whether they are within; or 1 or 0 for the group. */
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

/** The largest share of a distance's weight that a direction may have and be left out. */
const NEGLIGIBLE = 1e-4;
/** Below this ratio two weights are equal: then rounding must not choose. */
const TIE = 1 + 1e-9;

/**
 * Vectors v with Σ v vᵀ = covariance, those that count most for the distances first: Cholesky factorisation that takes as
 * its next pivot the part of a distance that varies most against the room it has. They point towards the middle there, so
 * that the points of a mirror image are the mirror images of the points.
 */
function directions({ rows: size, data }: Matrix, distances: readonly UndecidedDistance[]): Float64Array[] {
  const rest = data.slice();
  const variance = (i: number, k: number) =>
    rest[i * size + i]! + (k < 0 ? 0 : rest[k * size + k]! - 2 * rest[i * size + k]!);
  const parts = distances.flatMap(({ one, other, inverseLimit: share, mean, covariance: [xx, , yy] }) => {
    const weight = 1 / ((xx + yy) / 2 + (1 / share - Math.hypot(...mean)) ** 2);
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

/** One distance, seen along a line. */
interface Chord {
  /** Where in the vector its points begin; the middle comes after all others. */
  readonly from: number;
  readonly to: number;
  /** How it changes along the line, and that squared. */
  readonly x: number;
  readonly y: number;
  readonly square: number;
  /** The most that it may be, squared. */
  readonly limit: number;
}

/** A change along the line, as a share of the limit, that is none. */
const STILL = 1e-10;

function chordAlong({ one, other, inverseLimit: share }: Distance, along: Float64Array): Chord {
  const from = 2 * one;
  const to = other === undefined ? along.length : 2 * other;
  const x = along[from]! - (along[to] ?? 0);
  const y = along[from + 1]! - (along[to + 1] ?? 0);
  const square = Math.hypot(x, y) * share < STILL ? 0 : x * x + y * y;
  return { from, to, x, y, square, limit: 1 / share ** 2 };
}

/** The probability of all groups together, then of each by itself. */
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

/** The point of the line from which its stretches are counted. */
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

/** The stretch of the line on which all distances of a group are within: from `low` to `high`, nothing where `high` is not above. */
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
