/**
 * Formats a cell: the kind first, two spaces for each level, one space after a colon and a comma. Comments, quotes and
 * digits are kept. If the meaning would change, the cell is returned unchanged.
 */
import { isKind, parentOf, ROOT } from '../model/index.ts';
import { readTree } from './read-tree.ts';
import type { Place, Tree } from './tree.ts';
import { commentsIn } from './comments.ts';
import { indented } from './indent.ts';
import { spaced } from './spacing.ts';

/** @param text of the cell, its `---` line included */
export function formatCell(text: string): string {
  const before = meaningOf(text);
  // An anchor must precede its aliases, so the order must not change.
  if (before === undefined || /[&*][A-Za-z]/.test(text)) return text;
  const made = untilStable(text);
  return made !== undefined && meaningOf(made) === before ? made : text;
}

/**
 * Formatting must be idempotent: it is repeated until the text is stable; a text that does not become stable is left
 * alone.
 */
function untilStable(text: string): string | undefined {
  let made = text;
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const next = kindFirst(indented(spaced(made)));
    if (next === made) return made;
    made = next;
  }
  return undefined;
}

const MOST_TURNS = 4;

/** What the text means, for comparison; undefined if it is no valid YAML. */
function meaningOf(text: string): string | undefined {
  const reading = blankMarker(text);
  const { tree, problems } = readTree(reading);
  if (tree === undefined || tree === null || typeof tree !== 'object' || problems.length > 0) return undefined;
  const comments = commentsIn(reading)
    .map(({ start, end }) => reading.slice(start, end))
    .sort();
  return JSON.stringify([kindOnTop(tree), comments]);
}

/** The order of keys is significant, except for the kind's. */
function kindOnTop(tree: Tree): unknown {
  if (tree === null || typeof tree !== 'object' || Array.isArray(tree)) return tree;
  const entries = Object.entries(tree as Readonly<Record<string, Tree>>);
  const kind = entries.find(([key]) => isFirstKey(key));
  return kind ? [kind, ...entries.filter((entry) => entry !== kind)] : entries;
}

/** A note beside another kind belongs to that cell. */
function isFirstKey(key: string): boolean {
  return isKind(key) && key !== 'note';
}

function blankMarker(text: string): string {
  return text.replace(/^---(?=\s|$)/, '   ');
}

/** Moves the kind's lines, with the comments above them, to the top of a cell in block style. */
function kindFirst(text: string): string {
  const { places } = readTree(blankMarker(text));
  const tops = [...places]
    .filter(([path, { key }]) => path !== ROOT && parentOf(path) === ROOT && key)
    .map(([path, place]): readonly [string, Place] => [path, place]);
  const kind = tops.find(([path]) => isFirstKey(path));
  const [first] = tops;
  if (!kind || !first || kind === first || first[1].key!.start === 0) return text;
  const start = lineStart(text, kind[1].key!.start);
  const end = nextLine(text, Math.max(kind[1].key!.end, kind[1].span.end));
  const top = lineStart(text, first[1].key!.start);
  if (!/^[ \t]*$/.test(text.slice(start, kind[1].key!.start)) || !text.slice(0, end).endsWith('\n')) return text;
  return text.slice(0, top) + text.slice(start, end) + text.slice(top, start) + text.slice(end);
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

function nextLine(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  return feed < 0 ? text.length : feed + 1;
}
