/** The light at one station, from its marks, and at the tube; in words. */
import { lightOf } from '../../light/index.ts';
import type { Machine, StationReport } from '../../model/index.ts';
import { beamInWords, eyewearInWords, focusInWords, widthsInWords } from './light-words.ts';

/** At the lens also the focus. Empty if the machine cell does not describe the beam. */
export function lightHere(machine: Machine, station: StationReport): string[] {
  const { focus, lacks, ...light } = lightOf(machine, { stations: [station] });
  if (!light.beam) return [];
  const unknown = lacks.filter(({ field }) => field.startsWith(`path.${station.name}.`)).map(({ say }) => say);
  return [
    ...widthsInWords({ ...light, lacks }, station),
    ...(focus?.station === station.name ? focusInWords(focus, station) : []),
    ...unknown,
  ];
}

/** The beam for a key of `source`; for the power, the eyewear. */
export function lightAtTube(machine: Machine, key: string | undefined): string[] {
  const { beam, eyewear, lacks } = lightOf(machine, { stations: [] });
  const whys = (field: string) => lacks.filter((lack) => lack.field.startsWith(field)).map(({ say }) => say);
  if (key === 'beam') return beam ? [beamInWords(beam, machine.units)] : whys('source.beam');
  if (key === 'power') return eyewear ? eyewearInWords(eyewear) : whys('source');
  return [];
}
