/**
 * Hints to quote a user's name or word that another YAML reader would read as a boolean, null, or a number. The
 * format's own words are not among them; digits get a hint only where the format reads a text.
 */
import { keysOf, type Path } from '../model/index.ts';
import type { Problem } from './problem.ts';
import type { Place } from './tree.ts';

const CHANGES_TYPE = /^(?:y|n|yes|no|on|off|true|false|null|~)$/i;
const DIGITS = /^\d+$/;

export function quoteHints(
  text: string,
  places: ReadonlyMap<Path, Place>,
  value: object | undefined,
  others: readonly Problem[],
): Problem[] {
  const hints: Problem[] = [];
  const hint = (name: string, span: Place['span']) => {
    if (
      others.some(
        (other) => other.span.start < span.end && span.start < other.span.end && other.code !== 'cell.kindFirst',
      )
    )
      return;
    hints.push({ code: 'name.quote', span, facts: { name }, fix: { span, text: `"${name}"` } });
  };
  for (const [path, { span, key, letters, plain }] of places) {
    if (key !== undefined && key.end - key.start <= 5) {
      const name = text.slice(key.start, key.end);
      // `off` under `rules` is the only word of the format that would match.
      if (CHANGES_TYPE.test(name) && !isReasonOfRule(path)) hint(name, key);
    }
    if (!plain || letters === undefined || span.end - span.start > 20) continue;
    const name = text.slice(span.start, span.end);
    if (CHANGES_TYPE.test(name) || (DIGITS.test(name) && typeof at(value, path) === 'string')) hint(name, span);
  }
  return hints;
}

function isReasonOfRule(path: Path): boolean {
  const keys = keysOf(path);
  return keys.length > 2 && keys[0] === 'rules' && keys.at(-1) === 'off';
}

function at(value: unknown, path: Path): unknown {
  let node = value;
  for (const key of keysOf(path)) {
    if (typeof node !== 'object' || node === null || !Object.hasOwn(node, key)) return undefined;
    node = (node as Record<string, unknown>)[key];
  }
  return node;
}
