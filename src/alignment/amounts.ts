/**
 * How far to move each of a few adjusters: least squares on all shares of limits, then a search among the neighbouring
 * steps of a hand for the smallest largest share, each counted with its standard deviation on top. So a larger move,
 * whose end is less sure, must bring more; the sum is smooth and the same for a machine and its mirror image.
 */
import { fromRows, leastSquares } from '../statistics/index.ts';
import type { Adjuster } from './adjusters.ts';
import type { Effect, Effects, Picture } from './effects.ts';

export interface Amounts {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  /** Largest share of a limit, with one standard deviation on top; at most 1 is inside, probably. */
  readonly worst: number;
  /** The same with a little of everything else on top: what the search makes small. */
  readonly score: number;
}

/**
 * Those of the adjusters that are worth moving, and how far in steps of a hand, half steps where whole ones are too
 * coarse to begin; undefined where a screw or a part comes out as nought even so, or where the start of the search is
 * far from `best`, a score already had.
 */
export function bestAmounts(adjusters: readonly Adjuster[], effects: Picture, best = Infinity): Amounts | undefined {
  return amountsInSteps(adjusters, effects, 0, best) ?? amountsInSteps(adjusters, effects, 1, best);
}

/** What half steps must take off the largest share to be worth the patience. */
const CLEARLY = 0.95;

/**
 * The same choice looked at closely: the search goes on about the marks that the exact trace gives, and in half steps
 * where whole ones cannot reach the limit.
 */
export function closely(found: Amounts, effects: Effects): Amounts {
  const near = effects.about(found.adjusters, found.amounts);
  const coarse = searchFrom(found.adjusters, found.amounts, near, 0);
  const fine = coarse.worst > 1 ? searchFrom(found.adjusters, found.amounts, near, 1) : coarse;
  const better = fine.worst < CLEARLY * coarse.worst ? fine : coarse;
  return better.amounts.includes(0) ? found : { adjusters: found.adjusters, ...better };
}

/** The score that the adjusters would have at best, all of them moved at once by any amount. */
export function scoreAtBest(adjusters: readonly Adjuster[], effects: Picture): number {
  return weight(adjusters.map((adjuster) => effects.per(adjuster)), wantedAmounts(adjusters, effects), effects).score;
}

function amountsInSteps(adjusters: readonly Adjuster[], effects: Picture, fineness: 0 | 1, best: number): Amounts | undefined {
  const found = search(adjusters, wantedAmounts(adjusters, effects), effects, fineness, best);
  if (!found) return undefined;
  const { amounts, worst, score } = found;
  const moved = (_: unknown, k: number) => amounts[k] !== 0;
  const kept = adjusters.filter(moved);
  const all = new Set(adjusters.map(whole)).size === new Set(kept.map(whole)).size;
  return all ? { adjusters: kept, amounts: amounts.filter(moved), worst, score } : undefined;
}

/** A part shifted along one axis only is still that part shifted. */
function whole({ kind, part, screw }: Adjuster): string {
  return [kind, part, screw].join(' ');
}

/** As far as one advice goes, turns and mm: the screws stay in their reach. */
const FARTHEST = { turn: 2, piston: 1, shift: 25 } as const;
/** A pull towards no move, in shares of a limit for the farthest: settles what the marks leave open. */
const PULL = 1e-3;

/** What a screw leaves open counts as one more share for each adjuster: doubtful ones are moved less. */
function wantedAmounts(adjusters: readonly Adjuster[], effects: Picture): number[] {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  const rows = [
    ...Array.from({ length: 2 * effects.must }, (_, i) => per.map(({ shares }) => shares[i]!)),
    ...per.map(({ squared }, k) => per.map((_, other) => (other === k ? Math.sqrt(2 * sum(squared)) + PULL / FARTHEST[adjusters[k]!.kind] : 0))),
  ];
  const fit = leastSquares(fromRows(rows), [...effects.shares.subarray(0, 2 * effects.must).map((share) => -share), ...per.map(() => 0)]);
  return [...fit.coefficients].map((amount, k) => Math.max(-FARTHEST[adjusters[k]!.kind], Math.min(FARTHEST[adjusters[k]!.kind], amount)));
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}

type Found = Omit<Amounts, 'adjusters'>;

/** Steps seldom take more than this off the score of the least-squares solution. */
const HOPELESS = 1.6;

function search(adjusters: readonly Adjuster[], wanted: readonly number[], effects: Picture, fineness: 0 | 1, best: number): Found | undefined {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  const start = wanted.map((amount, k) => inSteps(amount, adjusters[k]!.steps[fineness]));
  if (weight(per, start, effects).score > HOPELESS * best) return undefined;
  return searchFrom(adjusters, start, effects, fineness);
}

function searchFrom(adjusters: readonly Adjuster[], start: readonly number[], effects: Picture, fineness: 0 | 1): Found {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  const steps = adjusters.map((adjuster) => adjuster.steps[fineness]);
  const amountsOf = (counts: readonly number[]) => counts.map((count, k) => count * steps[k]!);
  const tooFar = (amounts: readonly number[]) => amounts.some((amount, k) => Math.abs(amount) > FARTHEST[adjusters[k]!.kind]);
  const score = (amounts: readonly number[]) => (tooFar(amounts) ? Infinity : weight(per, amounts, effects).score);
  const counts = descend(start.map((amount, k) => Math.round(amount / steps[k]!)), (tried) => score(amountsOf(tried)));
  const amounts = amountsOf(counts);
  return { amounts, ...weight(per, amounts, effects) };
}

function inSteps(amount: number, step: number): number {
  return Math.round(amount / step) * step;
}

/** Between two settings with the same largest share the one with the smaller others wins, those of later stations among them. */
const SMALL = 1e-3;

/** What a station before the target goes past its limit, or past where it is, weighs so much more: it must stay within. */
const BREAKING = 10;

function weight(per: readonly Effect[], amounts: readonly number[], { shares, variances, kept, must }: Picture): { worst: number; score: number } {
  let worst = 0;
  let squares = 0;
  let broken = 0;
  for (let t = 0; t < variances.length; t++) {
    let right = shares[2 * t]!;
    let up = shares[2 * t + 1]!;
    let variance = variances[t]!;
    for (let k = 0; k < per.length; k++) {
      const amount = amounts[k]!;
      if (amount === 0) continue;
      const effect = per[k]!;
      right += amount * effect.shares[2 * t]!;
      up += amount * effect.shares[2 * t + 1]!;
      variance += amount * amount * effect.squared[t]! + Math.abs(amount) * effect.linear[t]! + effect.constant[t]!;
    }
    const square = right * right + up * up;
    squares += square;
    const share = Math.sqrt(square) + Math.sqrt(variance);
    if (t < must) worst = Math.max(worst, share);
    if (t < kept) broken += Math.max(0, share - Math.max(1, Math.hypot(shares[2 * t]!, shares[2 * t + 1]!) + Math.sqrt(variances[t]!)));
  }
  return { worst, score: worst + SMALL * squares + BREAKING * broken };
}

/** The score without any move. */
export function worstNow(effects: Picture): number {
  return weight([], [], effects).worst;
}

/** Ends at the latest after so many improvements; each makes the score better, so none is seen twice. */
const MOST_IMPROVEMENTS = 40;
/** Below this two scores are the same: rounding must not choose. */
const SAME = 1e-9;

/** To the best neighbour until none is better. */
function descend(from: readonly number[], score: (counts: readonly number[]) => number): readonly number[] {
  let counts = from;
  let best = score(counts);
  for (let round = 0; round < MOST_IMPROVEMENTS; round++) {
    let better = { counts, score: best };
    for (const tried of neighbours(counts)) {
      const found = score(tried);
      if (found < better.score - SAME) better = { counts: tried, score: found };
    }
    if (better.counts === counts) break;
    counts = better.counts;
    best = better.score;
  }
  return counts;
}

/** One step either way of one adjuster, or of two at once. */
function neighbours(counts: readonly number[]): number[][] {
  const single = counts.flatMap((_, k) => [1, -1].map((by) => counts.with(k, counts[k]! + by)));
  return [...single, ...single.flatMap((moved, m) => counts.flatMap((_, k) => (k > m / 2 ? [1, -1].map((by) => moved.with(k, moved[k]! + by)) : [])))];
}
