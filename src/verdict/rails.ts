/**
 * Estimates of rails and carriages from the marks: deviation from straight and turn along the travel, in mm at the
 * tape.
 */
import { covarianceBetween, CovarianceBuilder, varianceAt } from '../statistics/index.ts';
import { BEND, CARRIAGE_UNKNOWNS, type Travel } from '../machine/index.ts';
import { estimateOf, type Estimate } from '../estimate/index.ts';

/** Coverage factor: chance exceeds it once in a thousand times over both axes (normal, two-sided). */
const SIGNIFICANT = 3.5;
/** mm: a smaller deviation is no fault of a rail or a gantry. */
const MIN_DISTANCE = 0.5;

/** The deviation of a rail, halfway, from the line through its ends: mm, as one looks along the travel. */
export interface Bend {
  readonly travel: Travel;
  readonly right: number;
  readonly up: number;
  readonly u: number;
}

/** The rails with a significant bend. */
export function bends({ system, distribution: { values, covariance } }: Estimate): Bend[] {
  return system.carriages.flatMap((travel, order): Bend[] => {
    const from = system.unknowns.carriage(order) + BEND;
    const u = [0, 1].map((axis) => Math.sqrt(varianceAt(covariance, from + axis)));
    const [right, up] = [values[from]!, values[from + 1]!];
    const isSignificant = [right, up].some(
      (value, axis) => Math.abs(value) > Math.max(MIN_DISTANCE, SIGNIFICANT * u[axis]!),
    );
    return isSignificant ? [{ travel, right, up, u: Math.max(...u) }] : [];
  });
}

/**
 * A carriage that turns along its travel, with what rides on it: with the rider far out, its mark depends on the
 * position of the carriage, by the turn times the rider's travel, mm. Angles of mirrors have no such effect.
 */
export interface Racking {
  readonly travel: Travel;
  readonly rider: Travel;
  readonly amount: number;
  readonly u: number;
}

/** The carriages with a significant turn along their travel. */
export function rackings({ system, distribution: { values, covariance } }: Estimate): Racking[] {
  return system.carriages.flatMap((travel, order): Racking[] => {
    const rider = system.carriages.find(({ index }) => index > travel.index);
    if (!rider) return [];
    const run = rider.longest - rider.shortest;
    const from = system.unknowns.carriage(order);
    const turns = [0, 1, 2].map((axis) => ({
      amount: Math.abs(values[from + axis]!) * run,
      u: Math.sqrt(varianceAt(covariance, from + axis)) * run,
    }));
    const worst = turns.reduce((most, one) => (one.amount / one.u > most.amount / most.u ? one : most));
    return worst.amount > Math.max(MIN_DISTANCE, SIGNIFICANT * worst.u) ? [{ travel, rider, ...worst }] : [];
  });
}

/** The same machine with straight rails and carriages that do not turn. */
export function straightened({ system, distribution, hands }: Estimate): Estimate {
  const values = distribution.values.slice();
  const covariance = new CovarianceBuilder(distribution.covariance);
  system.carriages.forEach((_, order) => {
    for (let k = system.unknowns.carriage(order), end = k + CARRIAGE_UNKNOWNS; k < end; k++) {
      values[k] = 0;
      for (let other = 0; other < values.length; other++)
        if (covarianceBetween(covariance.result, k, other) !== 0) covariance.set(k, other, 0);
    }
  });
  return estimateOf({ ...distribution, values, covariance: covariance.result }, hands);
}
