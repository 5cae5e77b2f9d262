/**
 * Conformance probability of a station (JCGM 106): the probability that the joint distribution of its marks meets its
 * limits. Every limit is a set of distances, of a mark from the centre or of two marks from each other.
 */
import { distancesWithin, MOST_DIMENSIONS } from '../statistics/index.ts';
import { demandQueries, type Demand } from './demand.ts';
import { termsOf } from './demands.ts';
import { predict, type Estimate, type Prediction } from '../estimate/index.ts';
import type { Move } from '../machine/index.ts';

/** The joint probability of all limits, and that of each. */
export interface Probabilities {
  readonly joint: number;
  readonly centre: number;
  readonly spread: number;
  readonly plumb: number;
}

export function probabilities({ limits, ...demand }: Demand, { mean, covariance }: Prediction): Probabilities {
  const only = (limit: keyof typeof limits) =>
    limits[limit] === undefined ? [] : termsOf({ ...demand, limits: { [limit]: limits[limit] } });
  const {
    joint,
    each: [centre, spread, plumb],
  } = distancesWithin(mean, covariance, [only('centre'), only('spread'), only('plumb')]);
  return { joint, centre: centre!, spread: spread!, plumb: plumb! };
}

/** The joint probability after a further move; 0 where the beam would miss a tape's plane. */
export function probabilityAfter(demand: Demand, estimate: Estimate, move: Move): number {
  const predicted = predict(estimate, demandQueries(demand), move);
  return predicted ? distancesWithin(predicted.mean, predicted.covariance, [termsOf(demand)]).joint : 0;
}

/**
 * The joint probability that several stations are within after a further move, with the correlations of their marks.
 */
export function jointProbabilityAfter(all: readonly Demand[], estimate: Estimate, move: Move): number {
  const each = all.map(demandQueries);
  const predicted = predict(estimate, each.flat(), move);
  if (!predicted || predicted.mean.length > MOST_DIMENSIONS) return 0;
  const terms = all.flatMap((demand, k) => termsOf(demand, each.slice(0, k).flat().length));
  return distancesWithin(predicted.mean, predicted.covariance, [terms]).joint;
}
