/** What the marks have shown of rails and carriages: how far off straight, how far turned along the travel, in mm at the tape. */
import { lengthsIn } from '../model/index.ts';
import { CovarianceBuilder } from '../statistics/index.ts';
import { estimateOf, type Estimate } from './estimate.ts';
import { markInWords } from './reasons.ts';
import { frameOf } from './report.ts';
import type { Station, Travel } from './system.ts';
import { BEND, CARRIAGE_UNKNOWNS } from './unknowns.ts';

/** Standard uncertainties: chance goes this far once in a thousand times over both axes (normal, two-sided). */
const SIGNIFICANT = 3.5;
/** mm: less is no fault of a rail or a gantry. */
const LEAST = 0.5;

/** A rail off the line through its ends, halfway: mm, as one looks along the travel. */
export interface Bend {
  readonly travel: Travel;
  readonly right: number;
  readonly up: number;
  readonly u: number;
}

export function bends({ system: of, belief: { values, covariance } }: Estimate): Bend[] {
  return of.carriages.flatMap((travel, order): Bend[] => {
    const from = of.unknowns.carriage(order) + BEND;
    const u = [0, 1].map((axis) => Math.sqrt(covariance[from + axis]![from + axis]!));
    const [right, up] = [values[from]!, values[from + 1]!];
    const isSeen = [right, up].some((value, axis) => Math.abs(value) > Math.max(LEAST, SIGNIFICANT * u[axis]!));
    return isSeen ? [{ travel, right, up, u: Math.max(...u) }] : [];
  });
}

/**
 * A carriage that turns along its travel, with what rides on it: where the rider stands far out, its mark then depends on where
 * the carriage stands, by the turn times the rider's travel, mm. Angles of mirrors make no such term.
 */
export interface Racking {
  readonly travel: Travel;
  readonly rider: Travel;
  readonly amount: number;
  readonly u: number;
}

export function rackings({ system: of, belief: { values, covariance } }: Estimate): Racking[] {
  return of.carriages.flatMap((travel, order): Racking[] => {
    const rider = of.carriages.find(({ index }) => index > travel.index);
    if (!rider) return [];
    const run = rider.longest - rider.shortest;
    const from = of.unknowns.carriage(order);
    const turns = [0, 1, 2].map((axis) => ({
      amount: Math.abs(values[from + axis]!) * run,
      u: Math.sqrt(covariance[from + axis]![from + axis]!) * run,
    }));
    const worst = turns.reduce((most, one) => (one.amount / one.u > most.amount / most.u ? one : most));
    return worst.amount > Math.max(LEAST, SIGNIFICANT * worst.u) ? [{ travel, rider, ...worst }] : [];
  });
}

/** The tape goes where the rail goes, and the mark on it the other way. */
export function bendInWords({ right, up }: Pick<Bend, 'right' | 'up'>, station: Station): string {
  return markInWords(-right, -up, frameOf(station));
}

/** What no screw can remove at a station, with what to look at; undefined where the marks show nothing of the kind. */
export function railsInWords(estimate: Estimate, station: Station): string | undefined {
  const { doubt, measured } = lengthsIn(station.units);
  const moves = ({ element }: Travel) => station.travels.some((one) => one.element === element);
  const bent = bends(estimate)
    .filter(({ travel }) => moves(travel))
    .map(
      (one) =>
        `Halfway along its travel the mark on ${one.travel.element} is ${bendInWords(one, estimate.system.stations[one.travel.index]!)} (± ${doubt(one.u)}) off the line through its ends: the rail is bent or sags, or the carriage pitches on it. Check the rail with a straightedge, its supports, and the play of the carriage.`,
    );
  const racked = rackings(estimate)
    .filter(({ rider }) => moves(rider))
    .map(
      ({ travel, rider, amount, u }) =>
        `The ${travel.rides} turns along its travel: the ends of ${rider.element}'s travel differ by ${measured({ value: amount, u })} more than the angles explain. Check its belts, pulleys and rails, and square it.`,
    );
  const all = [...bent, ...racked];
  return all.length === 0 ? undefined : all.join(' ');
}

/** The same machine as it would be with straight rails and carriages that do not turn on them. */
export function straightened({ system: of, belief, hands }: Estimate): Estimate {
  const values = belief.values.slice();
  const covariance = new CovarianceBuilder(belief.covariance);
  of.carriages.forEach((_, order) => {
    for (let k = of.unknowns.carriage(order), end = k + CARRIAGE_UNKNOWNS; k < end; k++) {
      values[k] = 0;
      for (let other = 0; other < values.length; other++) covariance.row(k)[other] = covariance.row(other)[k] = 0;
    }
  });
  return estimateOf({ ...belief, values, covariance: covariance.result }, hands);
}
