/** A rail that the marks show to be bent, or a carriage that pitches: no screw corrects the deviation halfway. */
import { findingAt, lengthsIn, pathTo, type Finding } from '../model/index.ts';
import { bends } from '../verdict/index.ts';
import { bendInWords } from '../advice/index.ts';
import { lastMarksOf } from './last-entry.ts';
import type { Outcome } from './rule.ts';

export function bowed({ estimate, entries }: Outcome): Finding[] {
  return bends(estimate).flatMap((bend): Finding[] => {
    const { element, index } = bend.travel;
    const last = lastMarksOf(entries, element);
    return last
      ? [
          findingAt(last, pathTo('shots'), 'log.bowed', {
            station: element,
            way: bendInWords(bend, estimate.system.stations[index]!),
            u: lengthsIn(estimate.system.machine.units).doubt(bend.u),
          }),
        ]
      : [];
  });
}
