/**
 * The belief as those who advise ask it: marks predicted now and after a further move, with their covariance. What is
 * asked twice is worked out once.
 */
import { fromRows, multiplyTransposed, timesCovariance, type Matrix } from '../statistics/index.ts';
import { account } from './account.ts';
import { after, type Belief } from './belief.ts';
import { FREE, handsOf, type Hands } from './hands.ts';
import { NO_MOVE, sensitivity, type Move, type System, type Query, type Sensitivity } from '../machine/index.ts';
import type { State } from './state.ts';

export interface Estimate {
  readonly system: System;
  readonly belief: Belief;
  readonly hands: Hands;
  /** How a mark depends on the unknowns, as the machine is now; undefined where the beam would miss. */
  now(query: Query): Sensitivity | undefined;
}

/** Nothing is estimated without a machine. */
export function estimate(state: State): Estimate | undefined {
  return state.chapter && estimateOf(account(state.chapter).belief, handsOf(state));
}

export function estimateOf(belief: Belief, hands: Hands = FREE): Estimate {
  return {
    system: belief.system,
    belief,
    hands,
    now: kept(
      (query) => `${query.station} ${query.height} ${JSON.stringify(query.carriages)}`,
      (query) => sensitivity(belief, query),
    ),
  };
}

/** Marks predicted for tapes after a further move: `mean` and `covariance` in the order right, up, right, up … (mm). */
export interface Prediction {
  readonly mean: Float64Array;
  readonly covariance: Matrix;
}

/** Undefined where the beam would miss one of the tapes' planes. */
export function predict({ belief, now }: Estimate, queries: readonly Query[], move: Move): Prediction | undefined {
  const then = move === NO_MOVE ? belief : after(belief, move);
  const found = queries.map((query) => (move === NO_MOVE ? now(query) : sensitivity(then, query)));
  if (found.some((one) => one === undefined)) return undefined;
  const predicted = found as Sensitivity[];
  const rows = fromRows(predicted.flatMap((one) => [one.byRight, one.byUp]));
  const covariance = multiplyTransposed(timesCovariance(rows, then.covariance), rows);
  for (let index = 0; index < covariance.rows; index++) covariance.data[index * (covariance.columns + 1)]! += GRAIN;
  return { mean: Float64Array.from(predicted.flatMap((one) => [one.right, one.up])), covariance };
}

/** mm²: no mark has a middle to the micrometre, and the rounding of large cancelling terms stays far below it. */
const GRAIN = 1e-6;

/** Worked out once for each key. */
function kept<A, B>(key: (of: A) => string, work: (of: A) => B): (of: A) => B {
  const done = new Map<string, B>();
  return (of) => {
    if (!done.has(key(of))) done.set(key(of), work(of));
    return done.get(key(of))!;
  };
}
