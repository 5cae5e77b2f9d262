/** What has to stand between the texts of two cells for them to stay two cells. */
import { conflictsIn } from './conflicts.ts';
import { extentsOf, type Extent } from './extents.ts';
import { markersIn } from './markers.ts';

/** A `---` line at the very beginning, as nearly every cell has one. */
const OPENER = /^---(?:[ \t\n]|\r\n|$)/;

/**
 * The `---` or `...` line, if one is needed, between the text of a cell, which ends with a line end, and that of the next.
 * `mayStandBare`: a `...` at the end of the cell before is enough, no `---` is added.
 */
export function separatorOf(before: string, text: string, end: string, mayStandBare = false): string {
  if (OPENER.test(text)) return '';
  const isOpened = opens(text);
  if ((isOpened || mayStandBare) && beginsBehind(before, text)) return '';
  // Lines above a `---` would belong to the cell before, unless a `...` closes that.
  return `${isOpened ? '...' : '---'}${end}`;
}

/** Whether a cell begins where the second text does. */
function beginsBehind(before: string, text: string): boolean {
  return cellsIn(before + text).some(({ from }) => from === before.length + 1);
}

/** The line end that a text lacks at its end. */
export function missingEnd(text: string, end: string): string {
  return text === '' || text.endsWith('\n') ? '' : endBehind(text, end);
}

/** A line end to put behind a text: CR LF after a lone CR, which would become a part of it otherwise. */
export function endBehind(text: string, end: string): string {
  return text.endsWith('\r') ? '\r\n' : end;
}

/** Whether a text has its own line that opens its cell, possibly below others: after a `---` it would be one cell more. */
export function opens(text: string): boolean {
  if (!text.includes('---') && !text.includes('...')) return false;
  return cellsIn(`---\n${text}`).length > Math.max(1, cellsIn(text).length);
}

/** Whether the last cell of a text is closed by a `...` line. */
export function closes(text: string): boolean {
  return cellsIn(text).at(-1)?.closer !== undefined;
}

/** The cells of a text inside a file, below an empty line: there a byte order mark is a character like any other. */
function cellsIn(text: string): readonly Extent[] {
  const below = `\n${text}`;
  return extentsOf(below, markersIn(below, ['---', '...']), conflictsIn(below)).cells;
}
