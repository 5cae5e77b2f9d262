/**
 * How probable it is that a station's limits are met (conformance probability, JCGM 106): the share of the joint
 * distribution of its marks that lies inside. By formula for one mark and one circle, by inspection where the answer is
 * plain, by a fixed set of draws for the rest.
 */
import { discProbability, gaussianProbability, MOST_DIMENSIONS, type Matrix } from '../statistics/index.ts';
import { demandQueries, measures, PLUMB_RUN, type Demand, type Measures } from './demand.ts';
import type { Term } from './demands.ts';
import { predict, type Estimate, type Prediction } from './estimate.ts';
import type { Move } from './move.ts';

/** Joint over all requirements, and each by itself. */
export interface Probabilities {
  readonly joint: number;
  readonly centre: number;
  readonly spread: number;
  readonly plumb: number;
}

/** @param draws standard normal vectors of a dimension (`Estimate.draws`) */
export function probabilities(asked: Demand, { mean, covariance }: Prediction, draws: Estimate['draws']): Probabilities {
  const { limits, places } = asked;
  // One mark against one circle has a formula; draws are for what has none.
  if (places.length === 1 && limits.centre !== undefined && limits.plumb === undefined) {
    const centre = inDisc(mean, covariance, limits.centre);
    return { joint: centre, centre, spread: 1, plumb: 1 };
  }
  const plain = plainly(asked, mean, covariance);
  if (plain.centre !== undefined && plain.spread !== undefined && plain.plumb !== undefined) {
    return { joint: Math.min(plain.centre, plain.spread, plain.plumb), centre: plain.centre, spread: plain.spread, plumb: plain.plumb };
  }
  const sample = draws(mean.length);
  const inside = { centre: 0, spread: 0, plumb: 0 };
  const joint = gaussianProbability(mean, covariance, (marks) => {
    const found = measures(asked, marks);
    const ok = (limit: keyof Measures) => (found[limit] ?? 0) <= (limits[limit] ?? Infinity);
    const [centred, narrow, plumb] = [ok('centre'), ok('spread'), ok('plumb')];
    inside.centre += Number(centred);
    inside.spread += Number(narrow);
    inside.plumb += Number(plumb);
    return centred && narrow && plumb;
  }, sample) ?? 0;
  return { joint, centre: inside.centre / sample.rows, spread: inside.spread / sample.rows, plumb: inside.plumb / sample.rows };
}

/** So many standard deviations from its limit a distance needs no draws: less than one chance in a million. */
const PLAIN = 5;

/** Requirements that are surely met (1) or surely not (0); undefined where that takes a closer look. */
function plainly({ limits, places }: Demand, mean: Float64Array, covariance: Matrix): { readonly [limit in keyof Measures]: 0 | 1 | undefined } {
  const marks = places.map((_, k) => ({ one: k }));
  const pairs = marks.flatMap(({ one }) => marks.slice(0, one).map(({ one: other }) => ({ one, other })));
  const answer = (limit: number | undefined, distances: readonly Distance[]) => {
    if (limit === undefined) return 1;
    const margins = distances.map(({ value, u }) => (limit - value) / Math.max(u, Number.MIN_VALUE));
    if (margins.some((margin) => margin < -PLAIN)) return 0;
    return margins.every((margin) => margin > PLAIN) ? 1 : undefined;
  };
  const plumb = { one: places.length + 1, other: places.length };
  return {
    centre: answer(limits.centre, marks.map((mark) => distanceOf(mark, mean, covariance))),
    spread: answer(limits.spread, pairs.map((pair) => distanceOf(pair, mean, covariance))),
    plumb: answer(limits.plumb && limits.plumb * PLUMB_RUN, limits.plumb === undefined ? [] : [distanceOf(plumb, mean, covariance)]),
  };
}

interface Distance {
  readonly value: number;
  /** An upper bound of its standard deviation in any direction. */
  readonly u: number;
}

/** Between two marks, or of one from the middle; mm. */
function distanceOf({ one, other }: { readonly one: number; readonly other?: number }, mean: Float64Array, { data, columns }: Matrix): Distance {
  const axes = [0, 1].map((axis) => {
    const i = 2 * one + axis;
    if (other === undefined) return { part: mean[i]!, variance: data[i * columns + i]! };
    const k = 2 * other + axis;
    return { part: mean[i]! - mean[k]!, variance: data[i * columns + i]! + data[k * columns + k]! - 2 * data[i * columns + k]! };
  });
  const [right, up] = [axes[0]!, axes[1]!];
  return { value: Math.hypot(right.part, up.part), u: Math.sqrt(Math.max(0, right.variance + up.variance)) };
}

function inDisc(mean: Float64Array, { data, columns }: Matrix, radius: number): number {
  return discProbability([mean[0]!, mean[1]!], [data[0]!, data[1]!, data[columns + 1]!], radius);
}

/** The smallest probability with which any one of the terms is met: smooth, and the same for a machine and its mirror image. */
export function weakest(terms: readonly Term[], { mean, covariance: { data, columns } }: Prediction): number {
  let least = 1;
  for (const { one, other, share } of terms) {
    const part = (axis: number) => mean[2 * one + axis]! - (other === undefined ? 0 : mean[2 * other + axis]!);
    const entry = (a: number, b: number) => {
      const [i, k] = [2 * one + a, 2 * one + b];
      if (other === undefined) return data[i * columns + k]!;
      const [m, n] = [2 * other + a, 2 * other + b];
      return data[i * columns + k]! + data[m * columns + n]! - data[i * columns + n]! - data[m * columns + k]!;
    };
    const [right, up, rr, ru, uu] = [part(0), part(1), entry(0, 0), entry(0, 1), entry(1, 1)];
    const margin = (1 / share - Math.hypot(right, up)) / Math.sqrt(rr + uu);
    if (margin < -PLAIN) return 0;
    if (margin < PLAIN) least = Math.min(least, discProbability([right, up], [rr, ru, uu], 1 / share));
  }
  return least;
}

/** That several stations are within at once, after a further move, with all that their marks have in common. */
export function togetherAfter(all: readonly Demand[], estimate: Estimate, move: Move): number {
  const each = all.map(demandQueries);
  const predicted = predict(estimate, each.flat(), move);
  if (!predicted || predicted.mean.length > MOST_DIMENSIONS) return 0;
  const from = each.map((_, k) => 2 * each.slice(0, k).flat().length);
  return gaussianProbability(predicted.mean, predicted.covariance, (marks) => all.every((asked, k) => isMet(asked, marks.subarray(from[k]!, from[k]! + 2 * each[k]!.length))), estimate.draws(predicted.mean.length)) ?? 0;
}

function isMet(asked: Demand, marks: Float64Array): boolean {
  const { centre = 0, spread = 0, plumb = 0 } = measures(asked, marks);
  const { limits } = asked;
  return centre <= (limits.centre ?? Infinity) && spread <= (limits.spread ?? Infinity) && plumb <= (limits.plumb ?? Infinity);
}

/** The joint probability after a further move; 0 where the beam would miss a tape's plane. */
export function probabilityAfter(asked: Demand, estimate: Estimate, move: Move): number {
  const predicted = predict(estimate, demandQueries(asked), move);
  return predicted ? probabilities(asked, predicted, estimate.draws).joint : 0;
}
