/** What a key means, in the words of the schema, with an example as one would type it. */
import { lengthsIn, type Units } from '../../model/index.ts';
import type { Guide } from '../../workbook/index.ts';
import type { Spot } from './spot.ts';

/** Names are the user's own: for them what holds them is explained. */
export function explained(guide: Guide, { kind, path }: Pick<Spot, 'kind' | 'path'>, units: Units): string[] {
  const found = guide.at(kind, path);
  if (!found?.description) return path.length > 1 ? explained(guide, { kind, path: path.slice(0, -1) }, units) : [];
  const name = path.findLast((key) => !/^\d+$/.test(key))!;
  const example =
    found.examples[0] === undefined ? '' : ` For example \`${name}: ${inUnits(inYaml(found.examples[0]), units)}\`.`;
  const words = found.words.length > 1 ? ` One of ${found.words.map((word) => `\`${word}\``).join(', ')}.` : '';
  return [`\`${name}\` ${inUnits(found.description, units)}${words === '' ? example : words}`];
}

/** What the schema says, whose lengths are millimetres. */
function inUnits(text: string, units: Units): string {
  const { typical } = lengthsIn(units);
  return text.replace(/(\d+(?:\.\d+)?) mm\b/g, (_, mm: string) => typical(Number(mm)));
}

/** An example as it is written in one line. */
export function inYaml(example: unknown): string {
  if (Array.isArray(example)) return `[${example.map(inYaml).join(', ')}]`;
  if (example !== null && typeof example === 'object')
    return `{${Object.entries(example)
      .map(([key, value]) => `${key}: ${inYaml(value)}`)
      .join(', ')}}`;
  return String(example);
}
