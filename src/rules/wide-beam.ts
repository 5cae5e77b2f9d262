/** A beam that is written wider than the first hole: a slip of the pen, on which light and eyewear would rest. */
import { findingAt, lengthsIn, type Finding, type LogEntry } from '../model/index.ts';

export function wideBeam(logged: LogEntry): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'machine') return [];
  const {
    source: { beam },
    path: [first],
    units,
  } = entry.machine;
  const { given } = lengthsIn(units);
  if (!beam || !first) return [];
  // The least that it can be there: it is as wide as written at the exit, and runs apart from there on or from before.
  const width = Math.hypot(beam.diameter.value, (beam.divergence?.value ?? 0) * (first.leg?.value ?? 0));
  if (width <= first.aperture) return [];
  return [
    findingAt(
      logged,
      beam.diameter.value > first.aperture ? 'source/beam/diameter' : 'source/beam/divergence',
      'log.beam',
      {
        width: given(width),
        name: first.name,
        aperture: given(first.aperture),
      },
    ),
  ];
}
