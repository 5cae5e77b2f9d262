/**
 * How far to move each of a few adjusters: least squares on the marks in shares of their limits, then a search among
 * the neighbouring steps of a hand for the smallest largest share.
 */
import { fromRows, leastSquares } from '../statistics/index.ts';
import { NOT_MOVED } from './moved.ts';
import type { Adjuster } from './adjusters.ts';
import type { Demands } from './demands.ts';
import type { Estimate } from './estimate.ts';
import { marksAfter } from './unknowns.ts';

/** Marks as they are, and what a unit of each adjuster adds: the linear picture in which the search is done. */
export class Effects {
  readonly base: Float64Array;
  readonly shares: readonly number[];
  readonly #estimate: Estimate;
  readonly #demands: Demands;
  readonly #known = new Map<Adjuster, Effect>();

  private constructor(estimate: Estimate, demands: Demands, base: Float64Array) {
    this.#estimate = estimate;
    this.#demands = demands;
    this.base = base;
    this.shares = demands.shares(base);
  }

  /** Undefined where the beam misses a tape's plane even now. */
  static of(estimate: Estimate, demands: Demands): Effects | undefined {
    const base = marksAfter(estimate.system, estimate.values, demands.queries, NOT_MOVED);
    return base && new Effects(estimate, demands, base);
  }

  per(adjuster: Adjuster): Effect {
    const known = this.#known.get(adjuster) ?? this.#measure(adjuster);
    this.#known.set(adjuster, known);
    return known;
  }

  #measure(adjuster: Adjuster): Effect {
    const [step] = adjuster.steps;
    const { system, values } = this.#estimate;
    const after = marksAfter(system, values, this.#demands.queries, adjuster.apply(NOT_MOVED, step));
    const marks = after ? after.map((mark, i) => (mark - this.base[i]!) / step) : new Float64Array(this.base.length);
    return { marks, shares: this.#demands.shares(marks) };
  }
}

/** Change of the marks (mm) and of the shares of their limits per turn or mm, from one coarse step through the exact trace. */
interface Effect {
  readonly marks: Float64Array;
  readonly shares: readonly number[];
}

export interface Amounts {
  readonly amounts: readonly number[];
  /** Largest share of a limit, in the linear picture. */
  readonly worst: number;
}

/** Those of the adjusters that are worth moving, and how far; undefined where a screw or a part comes out as nought. */
export function bestAmounts(adjusters: readonly Adjuster[], effects: Effects, demands: Demands): (Amounts & { readonly adjusters: readonly Adjuster[] }) | undefined {
  const wanted = wantedAmounts(adjusters, effects);
  const coarse = search(adjusters, wanted, effects, demands, 0);
  const { amounts, worst } = coarse.worst > 1 ? finer(coarse, search(adjusters, wanted, effects, demands, 1)) : coarse;
  const moved = adjusters.filter((_, k) => amounts[k] !== 0);
  const all = new Set(adjusters.map(whole)).size === new Set(moved.map(whole)).size;
  return all ? { adjusters: moved, amounts: amounts.filter((amount) => amount !== 0), worst } : undefined;
}

/** A part shifted along one axis only is still that part shifted. */
function whole({ kind, part, screw }: Adjuster): string {
  return [kind, part, screw].join(' ');
}

/** Half a step of a hand is only asked for where a whole one cannot reach the limit. */
function finer(coarse: Amounts, fine: Amounts): Amounts {
  return fine.worst <= 1 ? fine : coarse;
}

/** A pull towards no move, in shares of a limit per turn or per 10 mm: settles what the marks leave open. */
const PULL = 1e-3;
const FARTHEST = { turn: 3, piston: 3, shift: 25 } as const;

function wantedAmounts(adjusters: readonly Adjuster[], effects: Effects): number[] {
  const columns = adjusters.map((adjuster) => effects.per(adjuster).shares);
  const rows = [
    ...effects.shares.map((_, i) => columns.map((column) => column[i]!)),
    ...adjusters.map((adjuster, k) => adjusters.map((_, other) => (other === k ? PULL / FARTHEST[adjuster.kind] : 0))),
  ];
  const fit = leastSquares(fromRows(rows), [...effects.shares.map((share) => -share), ...adjusters.map(() => 0)]);
  return [...fit.coefficients].map((amount, k) => Math.max(-FARTHEST[adjusters[k]!.kind], Math.min(FARTHEST[adjusters[k]!.kind], amount)));
}

/** Ends at the latest after so many improvements; each makes the marks better, so none is seen twice. */
const MOST_IMPROVEMENTS = 40;
/** Between two settings with the same largest share the one with the smaller others wins. */
const SMALL = 1e-3;

function search(adjusters: readonly Adjuster[], wanted: readonly number[], effects: Effects, demands: Demands, fineness: 0 | 1): Amounts {
  const per = adjusters.map((adjuster) => effects.per(adjuster));
  const steps = adjusters.map((adjuster) => adjuster.steps[fineness]);
  const marks = new Float64Array(effects.base.length);
  const worst = (counts: readonly number[]) => {
    marks.set(effects.base);
    per.forEach((effect, k) => addScaled(marks, effect.marks, counts[k]! * steps[k]!));
    return demands.worst(marks);
  };
  const shares = new Float64Array(effects.shares.length);
  const score = (counts: readonly number[]) => {
    shares.set(effects.shares);
    per.forEach((effect, k) => addScaled(shares, effect.shares, counts[k]! * steps[k]!));
    return worst(counts) + SMALL * shares.reduce((sum, share) => sum + share * share, 0);
  };
  const counts = descend(wanted.map((amount, k) => Math.round(amount / steps[k]!)), score);
  return { amounts: counts.map((count, k) => count * steps[k]!), worst: worst(counts) };
}

function addScaled(to: Float64Array, what: ArrayLike<number>, by: number): void {
  for (let i = 0; i < to.length; i++) to[i]! += by * what[i]!;
}

/** To the best neighbour until none is better. */
function descend(from: readonly number[], score: (counts: readonly number[]) => number): readonly number[] {
  let counts = from;
  let best = score(counts);
  for (let round = 0; round < MOST_IMPROVEMENTS; round++) {
    const better = neighbours(counts).map((of) => ({ of, score: score(of) })).reduce((one, other) => (other.score < one.score ? other : one));
    if (!(better.score < best)) break;
    counts = better.of;
    best = better.score;
  }
  return counts;
}

/** One step either way of one adjuster, or of two at once. */
function neighbours(counts: readonly number[]): number[][] {
  const single = counts.flatMap((_, k) => [1, -1].map((by) => counts.with(k, counts[k]! + by)));
  return [...single, ...single.flatMap((moved, m) => counts.flatMap((_, k) => (k > m / 2 ? [1, -1].map((by) => moved.with(k, moved[k]! + by)) : [])))];
}
