/** What a key means, in the words of the schema, with an example as one would type it. */
import type { Guide } from '../workbook/index.ts';
import type { Spot } from './spot.ts';

/** Names are the user's own: for them what holds them is explained. */
export function explained(guide: Guide, { kind, path }: Pick<Spot, 'kind' | 'path'>): string[] {
  const found = guide.at(kind, path);
  if (!found?.description) return path.length > 1 ? explained(guide, { kind, path: path.slice(0, -1) }) : [];
  const name = path.findLast((key) => !/^\d+$/.test(key))!;
  const example = found.examples[0] === undefined ? '' : ` For example \`${name}: ${inYaml(found.examples[0])}\`.`;
  const words = found.words.length > 1 ? ` One of ${found.words.map((word) => `\`${word}\``).join(', ')}.` : '';
  return [`\`${name}\` ${found.description}${words === '' ? example : words}`];
}

/** An example as it is written in one line. */
export function inYaml(example: unknown): string {
  if (Array.isArray(example)) return `[${example.map(inYaml).join(', ')}]`;
  if (example !== null && typeof example === 'object') return `{${Object.entries(example).map(([key, value]) => `${key}: ${inYaml(value)}`).join(', ')}}`;
  return String(example);
}
