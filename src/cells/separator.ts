/** What must be inserted between the texts of two cells so that they stay two cells. */
import { conflictsIn } from './conflicts.ts';
import { extentsOf, type Extent } from './extents.ts';
import { markersIn } from './markers.ts';

/** A `---` line at the beginning, as nearly every cell has. */
const OPENER = /^---(?:[ \t\n]|\r\n|$)/;

/**
 * The `---` or `...` line, if needed, between the text of a cell, which ends with a line end, and that of the next.
 * @param mayOmitMarker a `...` at the end of the cell before is enough; no `---` is added
 */
export function separatorOf(before: string, text: string, end: string, mayOmitMarker = false): string {
  if (OPENER.test(text)) return '';
  const isOpened = opens(text);
  if ((isOpened || mayOmitMarker) && beginsBehind(before, text)) return '';
  // Lines above a `---` would belong to the cell before, unless a `...` closes it.
  return `${isOpened ? '...' : '---'}${end}`;
}

/** Whether a cell begins at the second text. */
function beginsBehind(before: string, text: string): boolean {
  return cellsIn(before + text).some(({ from }) => from === before.length + 1);
}

/** The line end that a text lacks at its end. */
export function missingEnd(text: string, end: string): string {
  return text === '' || text.endsWith('\n') ? '' : endBehind(text, end);
}

/** The line end to append to a text: CR LF after a lone CR, which would otherwise become part of it. */
export function endBehind(text: string, end: string): string {
  return text.endsWith('\r') ? '\r\n' : end;
}

/** Whether a text has a line that opens its cell, possibly below others: after a `---` it would be one cell more. */
export function opens(text: string): boolean {
  if (!text.includes('---') && !text.includes('...')) return false;
  return cellsIn(`---\n${text}`).length > Math.max(1, cellsIn(text).length);
}

/** Whether the last cell of a text is closed by a `...` line. */
export function closes(text: string): boolean {
  return cellsIn(text).at(-1)?.closer !== undefined;
}

/** The cells of a text inside a file, below an empty line: there a byte order mark is an ordinary character. */
function cellsIn(text: string): readonly Extent[] {
  const below = `\n${text}`;
  return extentsOf(below, markersIn(below, ['---', '...']), conflictsIn(below)).cells;
}
