/** A carriage that turns along its travel: the far end of what rides on it depends on the position of the carriage. */
import { findingAt, lengthsIn, pathTo, type Finding } from '../model/index.ts';
import { rackings } from '../verdict/index.ts';
import { lastMarksOf } from './last-entry.ts';
import type { Outcome } from './rule.ts';

export function racking({ estimate, entries }: Outcome): Finding[] {
  const { bare, doubt } = lengthsIn(estimate.system.machine.units);
  return rackings(estimate).flatMap(({ travel, rider, amount, u }): Finding[] => {
    const last = lastMarksOf(entries, rider.element);
    return last
      ? [
          findingAt(last, pathTo('shots'), 'log.racking', {
            station: rider.element,
            carriage: travel.element,
            amount: bare(amount),
            u: doubt(u),
          }),
        ]
      : [];
  });
}
