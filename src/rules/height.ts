/** Near and far marks coincide off centre: there is no angle error, but a height or a lateral offset. */
import { findingAt, lengthsIn, lookup, pathTo, type Finding } from '../model/index.ts';
import { isMark, points, type Station } from '../machine/index.ts';
import { markInWords } from '../words/index.ts';
import type { StationVerdict } from '../verdict/index.ts';
import { freshReadings, type State } from '../estimate/index.ts';
import { lastEntry } from './last-entry.ts';
import type { Outcome } from './rule.ts';

export function height(outcome: Outcome): Finding[] {
  const { state, entries } = outcome;
  if (!state.system?.stations.some((station) => mayBeOff(state, station))) return [];
  return outcome.verdicts.flatMap((verdict): Finding[] => {
    const offset = steadyOffset(verdict);
    const last = lastEntry(entries, verdict);
    if (!offset || !last) return [];
    const { report } = verdict;
    return [
      findingAt(last, pathTo('shots'), 'log.height', {
        station: report.name,
        distance: lengthsIn(report.frame.units).read(Math.hypot(offset.right, offset.up)),
        way: markInWords(offset.right, offset.up, report.frame),
      }),
    ];
  });
}

/**
 * Whether the mean of some marks can lie outside the centre limit; if not, no estimate is needed. The two parts of a
 * mark may come from two readings, so the largest of each count together.
 */
function mayBeOff(state: State, station: Station): boolean {
  const { centre } = (state.limits && lookup(state.limits.stations, station.name)) ?? {};
  if (centre === undefined) return false;
  let [right, up] = [0, 0];
  for (const reading of freshReadings(state, station)) {
    right = Math.max(right, Math.abs(reading.right ?? 0));
    up = Math.max(up, Math.abs(reading.up ?? 0));
  }
  return Math.hypot(right, up) > centre;
}

/** Only for a station with its own travel: a single mark does not distinguish an angle from an offset. */
function steadyOffset({ station, report, fresh }: StationVerdict): { right: number; up: number } | undefined {
  const marks = points(fresh).filter(isMark);
  const max = (limit: 'centre' | 'spread') => report.requirements.find((requirement) => requirement.limit === limit);
  const [centre, spread] = [max('centre'), max('spread')];
  if (!station.own || marks.length < 2 || centre?.value === undefined || spread?.value === undefined) return undefined;
  if (centre.value <= centre.max || spread.value > spread.max) return undefined;
  const mean = (part: 'right' | 'up') => marks.reduce((sum, mark) => sum + mark[part] / marks.length, 0);
  const offset = { right: mean('right'), up: mean('up') };
  return Math.hypot(offset.right, offset.up) > centre.max ? offset : undefined;
}
