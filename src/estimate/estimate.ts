/**
 * The belief as those who advise ask it: marks predicted now and after a further move, with their covariance. What is
 * asked twice is worked out once.
 */
import { fromRows, multiplyTransposed, timesCovariance, type Matrix } from '../statistics/index.ts';
import { runFilter } from './filter.ts';
import { propagate, type Distribution } from './distribution.ts';
import { FREE, handsNow, type Hands } from './hands.ts';
import { NO_MOVE, sensitivity, type Move, type System, type Query, type Sensitivity } from '../machine/index.ts';
import type { State } from './state.ts';

export interface Estimate {
  readonly system: System;
  readonly distribution: Distribution;
  readonly hands: Hands;
  /** How a mark depends on the unknowns, as the machine is now; undefined where the beam would miss. */
  now(query: Query): Sensitivity | undefined;
}

/** Nothing is estimated without a machine. */
export function estimate(state: State): Estimate | undefined {
  return state.segment && estimateOf(runFilter(state.segment).distribution, handsNow(state));
}

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

/** Undefined where the beam would miss one of the tapes' planes. */
export function predict(
  { distribution, now }: Estimate,
  queries: readonly Query[],
  move: Move,
): Prediction | undefined {
  const then = move === NO_MOVE ? distribution : propagate(distribution, move);
  const sensitivities = queries.map((query) => (move === NO_MOVE ? now(query) : sensitivity(then, query)));
  if (sensitivities.some((one) => one === undefined)) return undefined;
  const defined = sensitivities as Sensitivity[];
  const rows = fromRows(defined.flatMap((one) => [one.byRight, one.byUp]));
  const covariance = multiplyTransposed(timesCovariance(rows, then.covariance), rows);
  for (let index = 0; index < covariance.rows; index++) covariance.data[index * (covariance.columns + 1)]! += JITTER;
  return { mean: Float64Array.from(defined.flatMap((one) => [one.right, one.up])), covariance };
}

/** mm²: no mark has a middle to the micrometre, and the rounding of large cancelling terms stays far below it. */
const JITTER = 1e-6;

/** Worked out once for each key. */
function memoised<A, B>(key: (of: A) => string, compute: (of: A) => B): (of: A) => B {
  const cached = new Map<string, B>();
  return (of) => {
    if (!cached.has(key(of))) cached.set(key(of), compute(of));
    return cached.get(key(of))!;
  };
}
