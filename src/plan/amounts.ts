/**
 * How far to move each of a few adjusters: least squares on all shares of limits, then a search among the neighbouring
 * steps of a hand for the smallest largest share, each counted with its standard deviation on top. So a larger move,
 * whose end is less sure, must bring more; the sum is smooth and the same for a machine and its mirror image.
 */
import { matrix, solveSymmetric } from '../statistics/index.ts';
import type { Adjuster } from './adjusters.ts';
import type { Effect, Effects, LinearModel } from './effects.ts';

export interface Amounts {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  /** Largest share of a limit, with one standard deviation on top; at most 1 is inside, probably. */
  readonly worst: number;
  /** The same with a little of everything else on top: what the search makes small. */
  readonly score: number;
}

/** Where a choice would move its adjusters if a hand could do any amount, and the score that this would have. */
export interface LeastSquaresAmounts {
  readonly amounts: readonly number[];
  readonly score: number;
}

/**
 * Those of the adjusters that are worth moving, and how far in steps of a hand, half steps where whole ones are too
 * coarse to begin; undefined where a screw or a part comes out as nought even so.
 */
export function bestAmounts(
  adjusters: readonly Adjuster[],
  { amounts }: LeastSquaresAmounts,
  effects: LinearModel,
): Amounts | undefined {
  return amountsInSteps(adjusters, amounts, effects, 0) ?? amountsInSteps(adjusters, amounts, effects, 1);
}

/** What half steps must take off the largest share to be worth the patience. */
const CLEARLY = 0.95;

/**
 * The same choice looked at closely: the search goes on about the marks that the exact trace gives, and in half steps
 * where whole ones cannot reach the limit.
 */
export function refine(coarsest: Amounts, effects: Effects): Amounts {
  const near = effects.about(coarsest.adjusters, coarsest.amounts);
  const coarse = searchFrom(coarsest.adjusters, coarsest.amounts, near, 0);
  const fine = coarse.worst > 1 ? searchFrom(coarsest.adjusters, coarsest.amounts, near, 1) : coarse;
  const better = fine.worst < CLEARLY * coarse.worst ? fine : coarse;
  return better.amounts.includes(0)
    ? coarsest
    : { adjusters: coarsest.adjusters, ...rounded({ adjusters: coarsest.adjusters, ...better }, near) };
}

/** Turns that a hand finds without counting marks on the knob, the easiest first. */
const EASY = [1 / 4, 1 / 8, 1 / 16] as const;
/** A largest share up to which an easier turn does as well, and what it may add to a larger one. */
const DOES = 0.7;
const ADDS = 0.04;

/** Each turn to the easiest fraction that does. */
function rounded({ adjusters, ...start }: Amounts, effects: LinearModel): ScoredAmounts {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  return adjusters.reduce<ScoredAmounts>((sofar, adjuster, k) => {
    if (adjuster.kind === 'shift') return sofar;
    const [least, farthest] = rangeOf(adjuster);
    const most = Math.max(DOES, sofar.worst + ADDS);
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

/** A part shifted along one axis only is still that part shifted. */
function partKey({ kind, part, screw }: Adjuster): string {
  return [kind, part, screw].join(' ');
}

/** As far as one advice goes, turns and mm: the screws stay in their reach, a tube or block in that of the aperture. */
const FARTHEST = { turn: 2, piston: 1, shift: 8 } as const;

/** Whether it goes as far as one advice does, so that the same again goes further; a mirror is not pushed on and on. */
export function isAtReach({ kind, most = Infinity }: Adjuster, amount: number): boolean {
  return kind !== 'piston' && Math.abs(amount) >= Math.min(FARTHEST[kind], most);
}

/** From where to where, 0 among it: a screw at its end goes the other way only. */
function rangeOf({ kind, only, most = Infinity }: Adjuster): readonly [least: number, most: number] {
  const reach = Math.min(FARTHEST[kind], most);
  return [only === 1 ? 0 : -reach, only === -1 ? 0 : reach];
}

/** A pull towards no move, in shares of a limit for the farthest: settles what the marks leave open. */
const PULL = 1e-3;

/**
 * By least squares on all shares. What a screw leaves open counts as one more share for each adjuster: doubtful ones are
 * moved less. That pull keeps the normal equations well conditioned, so they may be solved as they are.
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

/** Of the first entries, so many. */
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

/** Between two settings with the same largest share the one with the smaller others wins, those of later stations among them. */
const SMALL = 1e-3;

/** What a station before the target goes past its limit, or past where it is, weighs so much more: it must stay within. */
const BREAKING = 10;

/** @param enough a score from which on it makes no difference how large it is: then both may be told too small */
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

/** The score without any move. */
export function worstNow(effects: LinearModel): number {
  return scoreAmounts([], [], effects).worst;
}

/** Ends at the latest after so many improvements; each makes the score better, so none is seen twice. */
const MOST_IMPROVEMENTS = 40;
/** Below this two scores are the same: rounding must not choose. */
const SAME = 1e-9;

/**
 * To the best neighbour until none is better: one step either way of one adjuster, or of two at once.
 *
 * @param score of some counts; anything from `enough` on may be told as `enough`
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

/** Each of the counts from the `first` on, one step up and one down, and back. */
function eachStep(counts: number[], first: number, then: (k: number) => void): void {
  for (let k = first; k < counts.length; k++) {
    counts[k]! += 1;
    then(k);
    counts[k]! -= 2;
    then(k);
    counts[k]! += 1;
  }
}
