/** Marks of one place that differ although nothing was moved in between: a part is loose, or that is not yet clear. */
import { findingAt, lengthsIn, type Finding } from '../model/index.ts';
import { looseInWords, scatterDistance, whereIn } from '../advice/index.ts';
import { doubts } from '../estimate/index.ts';
import type { Outcome } from './rule.ts';

export function loose({ state, entries, estimate }: Outcome): Finding[] {
  const { scattering } = doubts(state);
  const logged = scattering && entries[scattering.discrepancy.later.order];
  if (!logged) return [];
  const station = estimate.system.stations[scattering.discrepancy.later.station]!;
  const facts = {
    station: station.name,
    place: whereIn(station, scattering.discrepancy.later),
    distance: lengthsIn(station.units).read(scatterDistance(scattering)),
  };
  const { path } = scattering.discrepancy.later;
  return [
    scattering.loose === undefined
      ? findingAt(logged, path, 'log.scatter', facts)
      : findingAt(logged, path, 'log.loose', { ...facts, part: looseInWords(scattering.loose) }),
  ];
}
