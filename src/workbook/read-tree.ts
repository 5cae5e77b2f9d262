/** Reads a cell's text into its tree: the fast way if the text is simple, else with the library. */
import { readAnyCell, tooMuch } from './any-cell.ts';
import { DEEPEST, nestsTooDeep } from './nesting.ts';
import { readPlainCell } from './plain-cell.ts';
import type { Read } from './tree.ts';

/** The tree of a cell with its places; without a tree, the problems. */
export function readTree(text: string): Read {
  if (nestsTooDeep(text)) return tooMuch(text, `more than ${DEEPEST} nested levels`);
  return readPlainCell(text) ?? readAnyCell(text);
}
