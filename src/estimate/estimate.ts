/**
 * The current distribution as the planner uses it: marks predicted now and after a further move, with their covariance.
 * Repeated queries are cached.
 */
import { fromRows, multiplyTransposed, timesCovariance, type Matrix, entry, variance } from '../statistics/index.ts';
import { runFilter } from './filter.ts';
import { propagate, type Distribution } from './distribution.ts';
import { FREE, handsNow, type Hands } from './hands.ts';
import { NO_MOVE, sensitivity, type Move, type System, type Query, type Sensitivity } from '../machine/index.ts';
import type { State } from './state.ts';

/** A distribution with a cached prediction of marks. */
export interface Estimate {
  readonly system: System;
  readonly distribution: Distribution;
  readonly hands: Hands;
  /** Derivatives of a mark by the unknowns, for the machine as it is now; undefined where the beam misses. */
  now(query: Query): Sensitivity | undefined;
}

/** The estimate at a state of the log; undefined without a machine. */
export function estimate(state: State): Estimate | undefined {
  return state.segment && estimateOf(runFilter(state.segment).distribution, handsNow(state));
}

/** The estimate from a distribution; `hands` limits what can be turned. */
export function estimateOf(distribution: Distribution, hands: Hands = FREE): Estimate {
  return {
    system: distribution.system,
    distribution,
    hands,
    now: memoised(
      (query) => `${query.station} ${query.height} ${JSON.stringify(query.carriages)}`,
      (query) => sensitivity(distribution, query),
    ),
  };
}

/** Marks predicted for tapes after a further move: `mean` and `covariance` in the order right, up, right, up … (mm). */
export interface Prediction {
  readonly mean: Float64Array;
  readonly covariance: Matrix;
}

/** Predicts marks on tapes after a further move. Undefined where the beam misses the plane of one of them. */
export function predict(
  { distribution, now }: Estimate,
  queries: readonly Query[],
  move: Move,
): Prediction | undefined {
  const then = move === NO_MOVE ? distribution : propagate(distribution, move);
  const sensitivities = queries.map((query) => (move === NO_MOVE ? now(query) : sensitivity(then, query)));
  if (sensitivities.some((mark) => mark === undefined)) return undefined;
  const defined = sensitivities as Sensitivity[];
  const rows = fromRows(defined.flatMap((mark) => [mark.byRight, mark.byUp]));
  const covariance = multiplyTransposed(timesCovariance(rows, then.covariance), rows);
  for (let index = 0; index < covariance.rows; index++) covariance.data[index * (covariance.columns + 1)]! += JITTER;
  return { mean: Float64Array.from(defined.flatMap((mark) => [mark.right, mark.up])), covariance };
}

/** One predicted mark, mm, with its variances and covariance, mm². */
export interface PredictedMark {
  readonly right: number;
  readonly up: number;
  readonly rightVariance: number;
  readonly upVariance: number;
  readonly covariance: number;
}

/** Predicts one mark after a further move. Undefined if the beam misses the plane of its tape. */
export function predictMark(estimate: Estimate, query: Query, move: Move): PredictedMark | undefined {
  const predicted = predict(estimate, [query], move);
  if (!predicted) return undefined;
  const { mean, covariance } = predicted;
  return {
    right: mean[0]!,
    up: mean[1]!,
    rightVariance: variance(covariance, 0),
    upVariance: variance(covariance, 1),
    covariance: entry(covariance, 0, 1),
  };
}

/** mm², jitter on the diagonal: no mark has a centre known to the micrometre, and rounding stays far below it. */
const JITTER = 1e-6;

/** Caches the result for each key. */
function memoised<A, B>(key: (of: A) => string, compute: (of: A) => B): (of: A) => B {
  const cached = new Map<string, B>();
  return (of) => {
    if (!cached.has(key(of))) cached.set(key(of), compute(of));
    return cached.get(key(of))!;
  };
}
