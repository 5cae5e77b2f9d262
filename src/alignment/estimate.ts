/**
 * Where the beam is and what the screws do, from the readings of the present epoch: the most probable values and
 * their covariance, by Gauss–Newton on the exact trace with the priors as further readings (the same as an
 * iterated Kalman filter: Bell and Cathey, IEEE Trans. Autom. Control 38 (1993) 294; cited from memory).
 *
 * This file is the seam: whoever asks sees `Estimate` and `predict`, and a filter over the whole log can take
 * the place of the solution here. What was moved between readings is taken back with the learnt effect of each
 * screw; what is not known of those moves (a hand's turn, a lock) widens the older reading.
 */
import { fromRows, leastSquaresOf, matrix, multiply, multiplyTransposed, quasiNormal, type Matrix } from '../statistics/index.ts';
import { beliefs, gainKey, type Belief, type Learnt } from './beliefs.ts';
import { equations } from './equations.ts';
import { NOT_MOVED, type Moved } from './moved.ts';
import type { Epoch, Round, State, Taken } from './state.ts';
import type { System } from './system.ts';
import { sensitivity, unknownMoves, unknowns, type Query, type Sensitivity } from './unknowns.ts';

export interface Estimate {
  readonly system: System;
  /** The unknowns in the order of `unknowns.ts` (mm, slopes), as the machine is now, and their covariance. */
  readonly values: Float64Array;
  readonly covariance: Matrix;
  /** How a mark depends on the unknowns, as the machine is now; undefined where the beam would miss. */
  now(query: Query): Sensitivity | undefined;
  /** Standard normal vectors of a dimension, for probabilities that have no formula; the same at every call. */
  draws(dimension: number): Matrix;
}

export function estimate(state: State): Estimate | undefined {
  const { system: of } = state;
  if (!of) return undefined;
  // Where every screw's place is written down, an earlier visit adds little to what its geometry says.
  const teachers = of.screws.every(({ effect }) => effect) ? [] : state.earlier;
  const learnt = teachers.reduce(learn, new Map<string, Belief>());
  return solve(of, beliefs(of, learnt), present(state.rounds, state.epoch), state.moved);
}

/** Marks predicted for tapes after a further move: `mean` and `covariance` in the order right, up, right, up … (mm). */
export interface Prediction {
  readonly mean: Float64Array;
  readonly covariance: Matrix;
}

/** Undefined where the beam would miss one of the tapes' planes. */
export function predict({ system: of, values, covariance, now }: Estimate, queries: readonly Query[], move: Moved): Prediction | undefined {
  const found = queries.map((query) => (move === NOT_MOVED ? now(query) : sensitivity(of, values, query, move, 1)));
  if (found.some((one) => one === undefined)) return undefined;
  const predicted = found as Sensitivity[];
  const rows = fromRows(predicted.flatMap((one) => [one.byRight, one.byUp]));
  const spread = multiplyTransposed(multiply(rows, covariance), rows);
  for (let index = 0; index < spread.rows; index++) spread.data[index * (spread.columns + 1)]! += GRAIN;
  addMoveNoise(of, spread, predicted, move);
  return { mean: Float64Array.from(predicted.flatMap((one) => [one.right, one.up])), covariance: spread };
}

/** mm²: no mark has a middle to the micrometre, and the rounding of large cancelling terms stays far below it. */
const GRAIN = 1e-6;

/** What a hand adds to a move that is still to be made: common to all the tapes that it moves. */
function addMoveNoise(of: System, spread: Matrix, predicted: readonly Sensitivity[], move: Moved): void {
  const rows = predicted.flatMap((one) => [one.byRight, one.byUp]);
  unknownMoves(of, move).forEach((variance, index) => {
    if (variance === 0) return;
    rows.forEach((row, r) => rows.forEach((column, c) => {
      spread.data[r * spread.columns + c]! += variance * row[index]! * column[index]!;
    }));
  });
}

/** What a closed epoch taught about its screws, carried over as the next one's prior. */
function learn(before: Learnt, epoch: Epoch): Learnt {
  const { system: of } = epoch;
  const last = Math.max(...[...epoch.rounds.values()].flat().map((round) => round.epoch));
  const { values, covariance } = solve(of, beliefs(of, before), present(epoch.rounds, last), epoch.moved);
  const place = unknowns(of);
  return new Map(of.screws.flatMap(({ part, screw }, order) => [0, 1].map((axis): [string, Belief] => {
    const index = place.gain(order) + axis;
    return [gainKey(part, screw, axis), { mean: values[index]!, u: deviation(covariance, index) }];
  })));
}

function present(rounds: ReadonlyMap<string, readonly Round[]>, epoch: number): Taken[] {
  return [...rounds.values()].flat().filter((round) => round.epoch === epoch).flatMap((round) => round.readings);
}

/** The solution has settled when no unknown moves by more than this share of its standard deviation, or after so many rounds. */
const SETTLED = 1e-3;
const MOST_ROUNDS = 8;

/**
 * One set of slopes serves all rounds: a trace bends by a thousandth where mirrors are a hundredth off, so the rounds
 * still converge on the exact trace, and only marks are traced anew. Unknowns that no reading speaks of (screws that
 * were never turned) keep their priors and stay out of the system.
 */
function solve(of: System, priors: readonly Belief[], readings: readonly Taken[], now: Moved): Estimate {
  let values = Float64Array.from(priors, (belief) => belief.mean);
  const covariance = matrix(values.length, values.length);
  priors.forEach(({ u }, index) => { covariance.data[index * (values.length + 1)] = u ** 2; });
  const { unknown, design, widths, observed } = equations(of, priors, readings, now, values);
  const solution = leastSquaresOf(design, widths);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = values;
    const fit = solution(observed(values));
    values = Float64Array.from(before);
    unknown.forEach((index, column) => { values[index] = fit.coefficients[column]!; });
    unknown.forEach((row, r) => unknown.forEach((column, c) => { covariance.data[row * values.length + column] = fit.covariance.data[r * fit.covariance.columns + c]!; }));
    const change = unknown.map((index) => Math.abs(values[index]! - before[index]!) / deviation(covariance, index));
    if (!(Math.max(0, ...change) > SETTLED)) break;
  }
  return {
    system: of,
    values,
    covariance,
    now: kept((query) => `${query.station} ${query.height} ${JSON.stringify(query.carriages)}`, (query) => sensitivity(of, values, query, NOT_MOVED, 1)),
    draws: kept(String, (dimension) => quasiNormal(dimension, DRAWS)),
  };
}

/** So many keep the error of a joint probability to about 0.01, finer than any decision taken on it. */
const DRAWS = 512;

/** Worked out once for each key. */
function kept<A, B>(key: (of: A) => string, work: (of: A) => B): (of: A) => B {
  const done = new Map<string, B>();
  return (of) => {
    if (!done.has(key(of))) done.set(key(of), work(of));
    return done.get(key(of))!;
  };
}

function deviation(covariance: Matrix, index: number): number {
  return Math.sqrt(covariance.data[index * (covariance.columns + 1)]!);
}
