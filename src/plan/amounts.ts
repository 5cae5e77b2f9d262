/**
 * Amounts of a few adjusters: least squares on the utilisation of all limits, then a search among the neighbouring
 * steps of a hand that minimises the largest utilisation, each plus one standard deviation. So a larger move, whose
 * result is less certain, must gain more. The score is smooth, and equal for a machine and its mirror image.
 */
import { UTILISATION } from './costs.ts';
import { matrix, solveSymmetric } from '../statistics/index.ts';
import type { Adjuster } from './adjusters.ts';
import type { Effect, Effects, LinearModel } from './effects.ts';

export interface Amounts {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  /** Largest utilisation of a limit plus one standard deviation; at most 1 is probably within. */
  readonly worst: number;
  /** The same plus small terms for all others: the search minimises it. */
  readonly score: number;
}

/** Amounts of a choice without steps of a hand, and their score. */
export interface LeastSquaresAmounts {
  readonly amounts: readonly number[];
  readonly score: number;
}

/**
 * The best amounts in steps of a hand, or in fine steps if coarse ones are too large; undefined if a screw or a part is
 * not moved at all even so.
 */
export function bestAmounts(
  adjusters: readonly Adjuster[],
  { amounts }: LeastSquaresAmounts,
  effects: LinearModel,
): Amounts | undefined {
  return amountsInSteps(adjusters, amounts, effects, 0) ?? amountsInSteps(adjusters, amounts, effects, 1);
}

/**
 * Refines a choice: the search continues from a linearisation at the marks of the exact trace, and in fine steps if
 * coarse ones cannot reach the limit.
 */
export function refine(coarsest: Amounts, effects: Effects): Amounts {
  const near = effects.about(coarsest.adjusters, coarsest.amounts);
  const coarse = searchFrom(coarsest.adjusters, coarsest.amounts, near, 0);
  const fine = coarse.worst > 1 ? searchFrom(coarsest.adjusters, coarsest.amounts, near, 1) : coarse;
  const better = fine.worst < UTILISATION.improved * coarse.worst ? fine : coarse;
  return better.amounts.includes(0)
    ? coarsest
    : { adjusters: coarsest.adjusters, ...rounded({ adjusters: coarsest.adjusters, ...better }, near) };
}

/** Turns that a hand can make without counting marks on the knob, the easiest first. */
const EASY = [1 / 4, 1 / 8, 1 / 16] as const;
/** Rounds each turn to the easiest fraction that is good enough. */
function rounded({ adjusters, ...start }: Amounts, effects: LinearModel): ScoredAmounts {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  return adjusters.reduce<ScoredAmounts>((sofar, adjuster, k) => {
    if (adjuster.kind === 'shift') return sofar;
    const [least, farthest] = rangeOf(adjuster);
    const most = Math.max(UTILISATION.easyTurn, sofar.worst + UTILISATION.easyTurnAdds);
    for (const step of EASY) {
      const amount = Math.round(sofar.amounts[k]! / step) * step;
      if (amount === sofar.amounts[k]) return sofar;
      const amounts = sofar.amounts.map((one, i) => (i === k ? amount : one));
      const then = scoreAmounts(per, amounts, effects);
      if (
        amount !== 0 &&
        amount >= least &&
        amount <= farthest &&
        then.worst <= most &&
        then.score <= sofar.score + most - sofar.worst
      )
        return { amounts, ...then };
    }
    return sofar;
  }, start);
}

function amountsInSteps(
  adjusters: readonly Adjuster[],
  start: readonly number[],
  effects: LinearModel,
  fineness: 0 | 1,
): Amounts | undefined {
  const best = searchFrom(adjusters, start, effects, fineness);
  const { amounts, worst, score } = best;
  const moved = (_: unknown, k: number) => amounts[k] !== 0;
  const moving = adjusters.filter(moved);
  const all = new Set(adjusters.map(partKey)).size === new Set(moving.map(partKey)).size;
  return all ? { adjusters: moving, amounts: amounts.filter(moved), worst, score } : undefined;
}

/** The part or screw of an adjuster: a part shifted along one axis counts as shifted. */
function partKey({ kind, part, screw }: Adjuster): string {
  return [kind, part, screw].join(' ');
}

/**
 * Maximum amounts of one advice, turns and mm: the screws stay in their range, a tube or block in that of the aperture.
 */
const FARTHEST = { turn: 2, piston: 1, shift: 8 } as const;

/** Whether an amount is the maximum of one advice, so that a second move goes further; a mirror is not pushed twice. */
export function isAtReach({ kind, most = Infinity }: Adjuster, amount: number): boolean {
  return kind !== 'piston' && Math.abs(amount) >= Math.min(FARTHEST[kind], most);
}

/** Range of an amount, which includes 0: a screw at its end goes only the other way. */
function rangeOf({ kind, only, most = Infinity }: Adjuster): readonly [least: number, most: number] {
  const reach = Math.min(FARTHEST[kind], most);
  return [only === 1 ? 0 : -reach, only === -1 ? 0 : reach];
}

/** Regularisation towards no move, as utilisation at the maximum amount: it decides what the marks leave open. */
const PULL = 1e-3;

/**
 * Least squares on the utilisation of all limits. The uncertainty of a screw's effect is one more residual for each
 * adjuster: uncertain ones are moved less. This regularisation keeps the normal equations well conditioned.
 */
export function leastSquaresAmounts(adjusters: readonly Adjuster[], effects: LinearModel): LeastSquaresAmounts {
  const count = adjusters.length;
  const normal = matrix(count, count);
  const right = matrix(count, 1);
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  const length = 2 * effects.requiredCount;
  per.forEach(({ utilisation, squared }, row) => {
    right.data[row] = -dot(utilisation, effects.utilisation, length);
    for (let column = 0; column <= row; column++) {
      const product = dot(utilisation, per[column]!.utilisation, length);
      normal.data[row * count + column] = product;
      normal.data[column * count + row] = product;
    }
    normal.data[row * (count + 1)]! += (Math.sqrt(2 * sum(squared)) + PULL / FARTHEST[adjusters[row]!.kind]) ** 2;
  });
  const solution = solveSymmetric(normal, right);
  const amounts = adjusters.map((adjuster, k) => {
    const [least, most] = rangeOf(adjuster);
    return Math.max(least, Math.min(most, solution?.data[k] ?? 0));
  });
  return { amounts, score: scoreAmounts(per, amounts, effects).score };
}

/** Scalar product of the first `length` entries. */
function dot(one: Float64Array, other: Float64Array, length: number): number {
  let total = 0;
  for (let i = 0; i < length; i++) total += one[i]! * other[i]!;
  return total;
}

function sum(values: Float64Array): number {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i]!;
  return total;
}

type ScoredAmounts = Omit<Amounts, 'adjusters'>;

function searchFrom(
  adjusters: readonly Adjuster[],
  start: readonly number[],
  effects: LinearModel,
  fineness: 0 | 1,
): ScoredAmounts {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  const steps = adjusters.map((adjuster) => adjuster.steps[fineness]);
  const ranges = adjusters.map(rangeOf);
  const amounts = [...start];
  const score = (counts: readonly number[], enough: number) => {
    for (let k = 0; k < counts.length; k++) {
      amounts[k] = counts[k]! * steps[k]!;
      if (amounts[k]! < ranges[k]![0] || amounts[k]! > ranges[k]![1]) return Infinity;
    }
    return scoreAmounts(per, amounts, effects, enough).score;
  };
  const counts = descend(
    start.map((amount, k) => Math.round(amount / steps[k]!)),
    score,
  );
  const best = counts.map((count, k) => count * steps[k]!);
  return { amounts: best, ...scoreAmounts(per, best, effects) };
}

/**
 * Weight of the sum of squares: of two settings with the same largest utilisation, the one with smaller others wins,
 * later stations included.
 */
const SMALL = 1e-3;

/**
 * Weight of the amount by which a station before the target exceeds its limit, or its present utilisation: it must stay
 * within.
 */
const BREAKING = 10;

/** @param enough scores above this need not be exact: both results may then be too small */
function scoreAmounts(
  per: readonly Effect[],
  amounts: readonly number[],
  { utilisation, variances, upstreamCount, requiredCount }: LinearModel,
  enough = Infinity,
): { worst: number; score: number } {
  let worst = 0;
  let squares = 0;
  let broken = 0;
  for (let t = 0; t < variances.length; t++) {
    let right = utilisation[2 * t]!;
    let up = utilisation[2 * t + 1]!;
    let variance = variances[t]!;
    for (let k = 0; k < per.length; k++) {
      const amount = amounts[k]!;
      if (amount === 0) continue;
      const effect = per[k]!;
      right += amount * effect.utilisation[2 * t]!;
      up += amount * effect.utilisation[2 * t + 1]!;
      variance += amount * amount * effect.squared[t]! + Math.abs(amount) * effect.linear[t]! + effect.constant[t]!;
    }
    const square = right * right + up * up;
    squares += square;
    const magnitude = Math.sqrt(square) + Math.sqrt(variance);
    if (t < requiredCount && magnitude > worst) {
      worst = magnitude;
      if (worst >= enough) return { worst, score: worst };
    }
    if (t < upstreamCount)
      broken += Math.max(
        0,
        magnitude - Math.max(1, Math.hypot(utilisation[2 * t]!, utilisation[2 * t + 1]!) + Math.sqrt(variances[t]!)),
      );
  }
  return { worst, score: worst + SMALL * squares + BREAKING * broken };
}

/** The largest utilisation without any move. */
export function worstNow(effects: LinearModel): number {
  return scoreAmounts([], [], effects).worst;
}

/** Maximum number of improvements; each improves the score, so none repeats. */
const MOST_IMPROVEMENTS = 40;
/** Scores closer than this are equal: rounding must not choose. */
const SAME = 1e-9;

/**
 * Moves to the best neighbour until none is better: one step either way of one adjuster, or of two at once.
 *
 * @param score of some counts; any value above `enough` may be returned as `enough`
 */
function descend(
  from: readonly number[],
  score: (counts: readonly number[], enough: number) => number,
): readonly number[] {
  let counts = from;
  let best = score(counts, Infinity);
  const tried = [...from];
  for (let round = 0; round < MOST_IMPROVEMENTS; round++) {
    let better = { counts, score: best };
    const tryOut = () => {
      const tryScore = score(tried, better.score);
      if (tryScore < better.score - SAME) better = { counts: [...tried], score: tryScore };
    };
    eachStep(tried, 0, () => tryOut());
    eachStep(tried, 0, (k) => eachStep(tried, k + 1, tryOut));
    if (better.counts === counts) break;
    counts = better.counts;
    best = better.score;
    counts.forEach((count, k) => {
      tried[k] = count;
    });
  }
  return counts;
}

/** Calls `then` with each count from the `first` on one step up, then one step down; restores it. */
function eachStep(counts: number[], first: number, then: (k: number) => void): void {
  for (let k = first; k < counts.length; k++) {
    counts[k]! += 1;
    then(k);
    counts[k]! -= 2;
    then(k);
    counts[k]! += 1;
  }
}
