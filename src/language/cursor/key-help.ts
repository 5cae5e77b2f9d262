/** The meaning of a key from the schema, with an example. */
import { lengthsIn, type Units } from '../../model/index.ts';
import type { Guide } from '../../workbook/index.ts';
import type { CursorNode } from './cursor-node.ts';

/** For a user-defined name, the enclosing key is explained. */
export function keyHelp(guide: Guide, { kind, path }: Pick<CursorNode, 'kind' | 'path'>, units: Units): string[] {
  const guidance = guide.at(kind, path);
  if (!guidance?.description) return path.length > 1 ? keyHelp(guide, { kind, path: path.slice(0, -1) }, units) : [];
  const name = path.findLast((key) => !/^\d+$/.test(key))!;
  const example =
    guidance.examples[0] === undefined
      ? ''
      : ` For example \`${name}: ${inUnits(inYaml(guidance.examples[0]), units)}\`.`;
  const words = guidance.words.length > 1 ? ` One of ${guidance.words.map((word) => `\`${word}\``).join(', ')}.` : '';
  return [`\`${name}\` ${inUnits(guidance.description, units)}${words === '' ? example : words}`];
}

/** The schema's text, whose lengths are in millimetres, in these units. */
function inUnits(text: string, units: Units): string {
  const { typical } = lengthsIn(units);
  return text.replace(/(\d+(?:\.\d+)?) mm\b/g, (_, mm: string) => typical(Number(mm)));
}

/** An example on one line. */
export function inYaml(example: unknown): string {
  if (Array.isArray(example)) return `[${example.map(inYaml).join(', ')}]`;
  if (example !== null && typeof example === 'object')
    return `{${Object.entries(example)
      .map(([key, value]) => `${key}: ${inYaml(value)}`)
      .join(', ')}}`;
  return String(example);
}
