/**
 * Several stations' demands on one vector of marks: the target's and those of the stations before it, which must
 * stay within. What a planner minimises is written here once, as rows for least squares and as the largest share.
 */
import { demandQueries, measures, worstShare, PLUMB_RUN, type Demand } from './conformance.ts';
import type { Query } from './unknowns.ts';

export class Demands {
  readonly queries: readonly Query[];
  /** Where each demand's marks begin. */
  readonly #begins: readonly number[];
  readonly all: readonly Demand[];

  constructor(all: readonly Demand[]) {
    this.all = all;
    const each = all.map(demandQueries);
    this.queries = each.flat();
    this.#begins = each.map((_, i) => 2 * each.slice(0, i).flat().length);
  }

  /** Largest share of a limit that any of the marks takes: at most 1 is inside. */
  worst(marks: Float64Array): number {
    return this.#reduce(marks, (most, demand, own) => Math.max(most, worstShare(demand, measures(demand, own))));
  }

  /** Everything in shares of its limit, linear in the marks: what least squares makes small. */
  shares(marks: Float64Array): number[] {
    const shares: number[] = [];
    this.#reduce(marks, (_, demand, own) => {
      shares.push(...sharesOf(demand, own));
      return 0;
    });
    return shares;
  }

  #reduce(marks: Float64Array, each: (sofar: number, demand: Demand, own: Float64Array) => number): number {
    return this.all.reduce((sofar, demand, i) => each(sofar, demand, marks.subarray(this.#begins[i]!, this.#begins[i + 1] ?? marks.length)), 0);
  }
}

function sharesOf({ limits, places }: Demand, marks: Float64Array): number[] {
  const count = places.length;
  const own = [...marks.subarray(0, 2 * count)];
  const shares: number[] = [];
  if (limits.centre !== undefined) shares.push(...own.map((part) => part / limits.centre!));
  if (limits.spread !== undefined) shares.push(...aboutMean(own).map((part) => (2 * part) / limits.spread!));
  if (limits.plumb !== undefined) {
    const tail = 2 * count;
    shares.push(...[0, 1].map((axis) => (marks[tail + 2 + axis]! - marks[tail + axis]!) / PLUMB_RUN / limits.plumb!));
  }
  return shares;
}

/** The spread is a distance between two marks; from their mean each is half as far. */
function aboutMean(parts: readonly number[]): number[] {
  const count = parts.length / 2;
  const mean = (axis: 0 | 1) => parts.reduce((sum, part, i) => (i % 2 === axis ? sum + part / count : sum), 0);
  const [right, up] = [mean(0), mean(1)];
  return parts.map((part, i) => part - (i % 2 === 0 ? right : up));
}
