/** The beam from tube to work, from the last marks. */
import {
  beamInWords,
  eyewearInWords,
  focusInWords,
  lossesInWords,
  machineAt,
  widthsInWords,
  type Book,
} from '../language/index.ts';
import { lightOf } from '../light/index.ts';
import { table, type Block } from './blocks.ts';
import type { Visit } from './visit.ts';

export function lightBlocks(book: Book, { evaluation }: Visit): Block[] {
  const machine = machineAt(book, Infinity);
  if (!machine) return [];
  const light = lightOf(machine, evaluation);
  const { beam, focus, eyewear, lacks } = light;
  const lens = evaluation.stations.find(({ name }) => name === focus?.station);
  const texts = (lines: readonly string[]): Block[] => lines.map((text) => ({ kind: 'text', text }));
  return [
    ...texts(beam ? [beamInWords(beam, machine.units)] : []),
    ...(beam
      ? table(
          ['station', 'beam'],
          evaluation.stations.map((station) => [station.name, widthsInWords(light, station).join('\n')]),
        )
      : []),
    ...(beam
      ? [
          {
            kind: 'list' as const,
            items: lossesInWords(light, evaluation.stations.at(-1)?.carriages ?? []).map(
              (loss) => `loss at all apertures, ${loss}`,
            ),
          },
        ]
      : []),
    ...texts(focus && lens ? focusInWords(focus, lens) : []),
    ...texts(eyewear ? eyewearInWords(eyewear) : []),
    ...texts(lacks.map(({ say }) => say)),
  ];
}
