/** Estimated errors of rails and carriages, in words. */
import { lengthsIn } from '../model/index.ts';
import type { Estimate } from '../estimate/index.ts';
import { markInWords } from '../words/index.ts';
import { bends, rackings, frameOf, type Bend } from '../verdict/index.ts';
import type { Station, Travel } from '../machine/index.ts';

/** The tape moves with the rail, so the mark moves the opposite way. */
export function bendInWords({ right, up }: Pick<Bend, 'right' | 'up'>, station: Station): string {
  return markInWords(-right, -up, frameOf(station));
}

/** Errors at a station that no screw corrects, with what to inspect; undefined if the marks show none. */
export function railsInWords(estimate: Estimate, station: Station): string | undefined {
  const { doubt, measured } = lengthsIn(station.units);
  const moves = ({ element }: Travel) => station.travels.some((one) => one.element === element);
  const bent = bends(estimate)
    .filter(({ travel }) => moves(travel))
    .map(
      (bend) =>
        `Halfway along its travel the mark on ${bend.travel.element} is ${bendInWords(bend, estimate.system.stations[bend.travel.index]!)} (± ${doubt(bend.u)}) off the line through the end marks: the rail is bent or sags, or the carriage pitches on it. Check the rail with a straightedge, its supports, and the play of the carriage.`,
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
