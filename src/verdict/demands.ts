/**
 * Several stations' demands on one vector of marks: the target's and those of the stations before it, which must stay
 * within. Every limit is a set of terms of one form: the distance between two marks, or of one mark from the centre,
 * against a maximum. Marks in mm: right, up, right, up …
 */
import type { Distance } from '../statistics/index.ts';
import { demandQueries, PLUMB_RUN, type Demand } from './demand.ts';
import type { Query } from '../machine/index.ts';

/** A distance between marks, or of one from the centre, against its limit; mm. */
export type Term = Distance;

/** Demands of several stations on one vector of marks. */
export class Demands {
  /** The demands that must be met: those upstream and the target's. */
  readonly all: readonly Demand[];
  readonly queries: readonly Query[];
  /** The first of `queries`: those of demands that must be met. */
  readonly needed: readonly Query[];
  /**
   * In order: `upstreamCount` terms of the stations before the target, which are met and must stay so; the target's
   * own, up to `requiredCount`; then those of later stations, which a move should not make worse.
   */
  readonly terms: readonly Term[];
  readonly upstreamCount: number;
  readonly requiredCount: number;

  constructor(upstream: readonly Demand[], target: Demand, later: readonly Demand[]) {
    this.all = [...upstream, target];
    const every = [...this.all, ...later];
    const each = every.map(demandQueries);
    const terms = every.map((demand, k) => termsOf(demand, each.slice(0, k).flat().length));
    this.queries = each.flat();
    this.needed = each.slice(0, this.all.length).flat();
    this.terms = terms.flat();
    this.upstreamCount = terms.slice(0, upstream.length).flat().length;
    this.requiredCount = terms.slice(0, this.all.length).flat().length;
  }

  /** Right and up of every term as a fraction of its limit: linear in the marks, so least squares can minimise it. */
  utilisation(marks: Float64Array): Float64Array {
    const utilisation = new Float64Array(2 * this.terms.length);
    this.terms.forEach(({ one, other, inverseLimit }, t) => {
      for (const axis of [0, 1])
        utilisation[2 * t + axis] =
          inverseLimit * (marks[2 * one + axis]! - (other === undefined ? 0 : marks[2 * other + axis]!));
    });
    return utilisation;
  }
}

/**
 * The terms of one demand.
 * @param from index of the station's first mark among all
 */
export function termsOf({ limits, places }: Pick<Demand, 'limits' | 'places'>, from = 0): Term[] {
  const marks = places.map((_, k) => from + k);
  const pairs = marks.flatMap((one, k) => marks.slice(0, k).map((other) => ({ one, other })));
  const after = from + places.length;
  return [
    ...(limits.centre === undefined ? [] : marks.map((one) => ({ one, inverseLimit: 1 / limits.centre! }))),
    ...(limits.spread === undefined ? [] : pairs.map((pair) => ({ ...pair, inverseLimit: 1 / limits.spread! }))),
    ...(limits.plumb === undefined
      ? []
      : [{ one: after + 1, other: after, inverseLimit: 1 / (limits.plumb * PLUMB_RUN) }]),
  ];
}
