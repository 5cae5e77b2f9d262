/**
 * Beam values that are impossible together: its width and spot are not computed, and eyewear depends on a diameter that
 * may be wrong.
 */
import { findingAt, lengthsIn, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { missedDivergence } from '../optics/index.ts';

export function impossibleBeam(logged: LogEntry): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'machine' || !entry.machine.source.beam) return [];
  const {
    wavelength,
    beam: { diameter, divergence, M2 },
  } = entry.machine.source;
  const least = missedDivergence(wavelength, entry.machine.source.beam);
  if (least === undefined || divergence === undefined) return [];
  const facts = {
    diameter: lengthsIn(entry.machine.units).given(diameter.value),
    ratio: figure(Math.max(1, M2?.value ?? 1)),
    least: figure(least * MILLI),
    divergence: figure(divergence.value * MILLI),
  };
  return [findingAt(logged, pathTo('source', 'beam'), 'beam.impossible', facts)];
}

const MILLI = 1000;

function figure(value: number): string {
  return String(Number(value.toPrecision(3)));
}
