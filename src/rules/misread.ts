/** A mark that was unexplained and was not confirmed when its place was shot again. */
import { findingAt, type Finding } from '../model/index.ts';
import { runFilter, tapeKey } from '../estimate/index.ts';
import { whereIn } from '../advice/index.ts';
import { grouped } from '../machine/index.ts';
import type { Outcome } from './rule.ts';

export function misread({ state, entries, estimate }: Outcome): Finding[] {
  const readings = state.segment ? runFilter(state.segment).misread : [];
  // Marks of one tape on the bed are read together.
  const tapes = grouped(readings, (reading) =>
    reading.height > 0 ? tapeKey(reading) : `${reading.order} ${reading.path}`,
  );
  return tapes.flatMap(([reading]): Finding[] => {
    const logged = entries[reading!.order];
    const station = estimate.system.stations[reading!.station];
    return logged && station
      ? [findingAt(logged, reading!.path, 'log.misread', { station: station.name, place: whereIn(station, reading!) })]
      : [];
  });
}
