/**
 * Readings: an iterated extended Kalman update through the exact trace, with the covariance in Joseph's form (Bar-Shalom,
 * Li and Kirubarajan, Estimation with Applications to Tracking and Navigation, 2001, chapters 5 and 10; from memory). It
 * ends where Gauss–Newton on the prior and these readings ends (Bell and Cathey, IEEE Trans. Autom. Control 38 (1993) 294;
 * from memory).
 */
import { chiSquareUpper, matrix, multiply, multiplyTransposed, solveSymmetric, type Matrix } from '../statistics/index.ts';
import type { Belief } from './belief.ts';
import { grouped } from './grouped.ts';
import type { Taken } from './state.ts';
import { marksAt, sensitivity } from './unknowns.ts';

/** What was read, against what was expected of it before: chi-square with so many degrees of freedom. */
export interface Surprise {
  readonly chiSquare: number;
  readonly freedom: number;
}

export interface Observed {
  readonly belief: Belief;
  readonly surprise: Surprise;
}

/**
 * The readings of one cell, together: they were taken with the machine as it stood. Those that no tape can show teach nothing.
 *
 * @param chance readings that were less probable than this before they were read are told of, and do not count
 */
export function observe(before: Belief, readings: readonly Taken[], chance = 0): Observed {
  const believable = readings.filter((reading) => !isBeyondTape(before, reading));
  const handfuls = Array.from({ length: Math.ceil(believable.length / HANDFUL) }, (_, k) => believable.slice(HANDFUL * k, HANDFUL * (k + 1)));
  return handfuls.reduce<Observed>((sofar, some) => {
    const { belief, surprise } = update(sofar.belief, some, chance);
    return { belief, surprise: { chiSquare: sofar.surprise.chiSquare + surprise.chiSquare, freedom: sofar.surprise.freedom + surprise.freedom } };
  }, { belief: before, surprise: NONE });
}

/** So many readings are weighed at once; a cell may hold hundreds, and the work grows with the cube. */
const HANDFUL = 12;

const NONE: Surprise = { chiSquare: 0, freedom: 0 };

/** No tape is so many times as wide as its hole: such a reading is a slip of the pen, said elsewhere. */
const TAPE = 5;

function isBeyondTape({ system }: Belief, { station, height, right = 0, up = 0 }: Taken): boolean {
  return height === 0 && Math.hypot(right, up) > TAPE * system.stations[station]!.element.aperture;
}

/** Shots of one cell with the carriages in one place share the tape that lies on the bed. */
export function tapeKey(reading: Taken): string {
  return `${reading.order} ${JSON.stringify(reading.carriages)}`;
}

/** What was read as independent-of-the-tape's-place numbers: each a sum of parts of the marks. */
interface Seen {
  readonly sums: readonly Sum[];
  /** Covariance of the sums from reading, mm². */
  readonly noise: Matrix;
}

/** By mark and part: 2·k for right of the k-th mark, 2·k + 1 for its up. */
interface Sum {
  readonly terms: readonly { readonly part: number; readonly share: number }[];
  readonly value: number;
}

/** An update has settled when the exact trace agrees with its straight line to so many standard uncertainties of a reading. */
const SETTLED = 0.02;
const MOST_ROUNDS = 5;

/** One correction: H P, its product with Hᵀ and the noise, and the gain, transposed; all by sum that was read. */
interface Correction {
  readonly shares: Matrix;
  readonly spread: Matrix;
  readonly gain: Matrix;
}

function update(before: Belief, readings: readonly Taken[], chance: number): Observed {
  const seen = seenIn(readings);
  const freedom = seen.sums.length;
  const count = before.values.length;
  let values = before.values;
  let surprise: Surprise | undefined;
  let correction: Correction | undefined;
  for (let round = 0; freedom > 0 && round < MOST_ROUNDS; round++) {
    const traced = readings.map((reading) => sensitivity({ ...before, values }, reading));
    if (!traced.every((one) => one !== undefined)) break;
    const parts = traced.flatMap(({ right, up, byRight, byUp }) => [{ mark: right, slopes: byRight }, { mark: up, slopes: byUp }]);
    const slopes = slopesOf(seen, parts, count);
    const off = offsets(seen, parts, slopes, before.values, values);
    const shares = multiply(slopes, before.covariance);
    const spread = multiplyTransposed(shares, slopes);
    for (let i = 0; i < spread.data.length; i++) spread.data[i]! += seen.noise.data[i]!;
    const weighed = solveSymmetric(spread, matrix(freedom, 1, off.slice()));
    if (!weighed) break;
    surprise ??= { chiSquare: off.reduce((sum, one, i) => sum + one * weighed.data[i]!, 0), freedom };
    if (round === 0 && isOdd(surprise, chance)) return { belief: before, surprise };
    const gain = solveSymmetric(spread, shares);
    if (!gain) break;
    correction = { shares, spread, gain };
    const next = before.values.slice();
    for (let i = 0; i < freedom; i++) for (let k = 0; k < count; k++) next[k]! += gain.data[i * count + k]! * off[i]!;
    const isSettled = agrees(before, readings, parts, values, next);
    values = next;
    if (isSettled) break;
  }
  if (!correction || !surprise) return { belief: before, surprise: NONE };
  return { belief: { ...before, values, covariance: josephs(before.covariance, correction) }, surprise };
}

/** Whether readings are further off than so small a chance allows. */
export function isOdd({ chiSquare, freedom }: Surprise, chance: number): boolean {
  return chance > 0 && freedom > 0 && chiSquareUpper(chiSquare, freedom) < chance;
}

interface Part {
  readonly mark: number;
  readonly slopes: Float64Array;
}

function slopesOf({ sums }: Seen, parts: readonly Part[], count: number): Matrix {
  const slopes = matrix(sums.length, count);
  sums.forEach(({ terms }, i) => {
    for (const { part, share } of terms) {
      const by = parts[part]!.slopes;
      for (let k = 0; k < count; k++) slopes.data[i * count + k]! += share * by[k]!;
    }
  });
  return slopes;
}

/** What was read less what the straight line through the traced point gives at `from`, where the belief stands. */
function offsets({ sums }: Seen, parts: readonly Part[], { data }: Matrix, from: Float64Array, traced: Float64Array): Float64Array {
  return Float64Array.from(sums, ({ terms, value }, i) => {
    let off = value;
    for (const { part, share } of terms) off -= share * parts[part]!.mark;
    if (from !== traced) for (let k = 0; k < from.length; k++) off -= data[i * from.length + k]! * (from[k]! - traced[k]!);
    return off;
  });
}

function agrees(before: Belief, readings: readonly Taken[], parts: readonly Part[], from: Float64Array, to: Float64Array): boolean {
  const exact = marksAt({ ...before, values: to }, readings);
  return exact !== undefined && parts.every(({ mark, slopes }, i) => {
    let straight = mark;
    for (let k = 0; k < to.length; k++) straight += slopes[k]! * (to[k]! - from[k]!);
    return Math.abs(exact[i]! - straight) < SETTLED * readings[i >> 1]!.u;
  });
}

/**
 * P − K A − (K A)ᵀ + K S Kᵀ with A = H P, written as P − K A + (K S − Aᵀ) Kᵀ: the last term is what rounding left, so an
 * error of the gain counts only by its square. Symmetric to the last bit.
 */
function josephs({ rows, columns, data }: Matrix, { gain, spread, shares }: Correction): Matrix {
  const count = spread.rows;
  const rest = multiply(spread, gain);
  for (let i = 0; i < rest.data.length; i++) rest.data[i]! -= shares.data[i]!;
  const [gains, share, left, result] = [gain.data, shares.data, rest.data, matrix(rows, columns)];
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k <= i; k++) {
      let entry = data[i * columns + k]!;
      for (let m = 0, at = 0; m < count; m++, at += columns) entry += left[at + i]! * gains[at + k]! - gains[at + i]! * share[at + k]!;
      result.data[i * columns + k] = entry;
      result.data[k * columns + i] = entry;
    }
  }
  return result;
}

const PARTS = ['right', 'up'] as const;

function seenIn(readings: readonly Taken[]): Seen {
  const own = readings.flatMap((reading, k) => (reading.height > 0 ? [] : PARTS.flatMap((part, axis): Sum[] => (reading[part] === undefined ? [] : [{ terms: [{ part: 2 * k + axis, share: 1 }], value: reading[part] }]))));
  const below = grouped(readings.flatMap((reading, k) => (reading.height > 0 ? [{ reading, k }] : [])), ({ reading }) => tapeKey(reading));
  const sums = [...own, ...below.flatMap((tape) => PARTS.flatMap((part, axis) => contrasts(tape.flatMap(({ reading, k }) => (reading[part] === undefined ? [] : [{ part: 2 * k + axis, value: reading[part] }])))))];
  const noise = matrix(sums.length, sums.length);
  sums.forEach((one, i) => sums.forEach((other, k) => {
    noise.data[i * sums.length + k] = one.terms.reduce((sum, { part, share }) => sum + share * (other.terms.find((term) => term.part === part)?.share ?? 0) * readings[part >> 1]!.u ** 2, 0);
  }));
  return { sums, noise };
}

/** A tape on the bed lies anywhere. Helmert's contrasts: n readings that share an unknown offset give n − 1 sums that do not know it. */
function contrasts(read: readonly { readonly part: number; readonly value: number }[]): Sum[] {
  return read.slice(1).map((last, count) => {
    const before = read.slice(0, count + 1);
    const size = Math.sqrt(before.length * (before.length + 1));
    const terms = [...before.map(({ part }) => ({ part, share: 1 / size })), { part: last.part, share: -before.length / size }];
    return { terms, value: (before.reduce((sum, { value }) => sum + value, 0) - before.length * last.value) / size };
  });
}
