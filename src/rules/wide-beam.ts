/** A beam that is wider than the first aperture: a slip of the pen, which would affect light and eyewear. */
import { findingAt, lengthsIn, pathTo, type Finding, type LogEntry } from '../model/index.ts';

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
  // The least width there: it has the written diameter at the exit, and diverges from there or from a waist before it.
  const width = Math.hypot(beam.diameter.value, (beam.divergence?.value ?? 0) * (first.leg?.value ?? 0));
  if (width <= first.aperture) return [];
  return [
    findingAt(
      logged,
      pathTo('source', 'beam', beam.diameter.value > first.aperture ? 'diameter' : 'divergence'),
      'log.beam',
      {
        width: given(width),
        name: first.name,
        aperture: given(first.aperture),
      },
    ),
  ];
}
