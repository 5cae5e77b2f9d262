/**
 * The text of `light`: the beam at every station, the clipping loss by corner, the focus, eyewear, and what is missing.
 */
import { cautions } from '../../shared/cautions.ts';
import { beamInWords, eyewearInWords, focusInWords, lossesInWords, unitsOf, widthsInWords } from '../language/index.ts';
import { harmless, type Evaluation, type Light } from '../model/index.ts';
import type { Paint } from './paint.ts';
import { broken, labelled, wrapped } from './wrap.ts';

const LABEL = 10;

export function lightText(file: string, light: Light | undefined, { stations }: Evaluation, paint: Paint): string {
  const head = broken(harmless(file)).map((line) => paint('bold', line));
  if (!light)
    return [...head, '', 'The beam cannot be computed: the workbook describes no machine without errors.', ''].join(
      '\n',
    );
  const { beam, focus, eyewear, lacks } = light;
  const lens = stations.find(({ name }) => name === focus?.station);
  return [
    ...head,
    ...section('beam', beam ? [beamInWords(beam, unitsOf({ stations }))] : []),
    ...(beam ? stations.flatMap((station) => section(station.name, widthsInWords(light, station))) : []),
    ...section(
      'lost',
      beam ? ['in total, at all apertures', ...lossesInWords(light, stations.at(-1)?.carriages ?? [])] : [],
    ),
    ...section('focus', focus && lens ? focusInWords(focus, lens) : []),
    ...section('eyewear', eyewear ? [...eyewearInWords(eyewear), ...cautions.defer] : []),
    ...section(
      'missing',
      lacks.map(({ say }) => say),
    ),
    '',
  ].join('\n');
}

/** Empty without lines. A long name gets a line of its own. */
function section(name: string, lines: readonly string[]): string[] {
  if (lines.length === 0) return [];
  if (name.length >= LABEL) return ['', ...broken(name), ...lines.flatMap((line) => wrapped(line, ' '.repeat(LABEL)))];
  return ['', ...lines.flatMap((line, k) => labelled(k === 0 ? name : '', line, LABEL))];
}
