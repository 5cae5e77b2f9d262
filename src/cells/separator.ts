/** What has to stand between the texts of two cells for them to stay two cells. */
import { CONFLICT_MARKERS, conflictsOf } from './conflicts.ts';
import { extentsOf, type Extent } from './extents.ts';
import { markersIn } from './markers.ts';

/** A `---` line at the very beginning, as nearly every cell has one. */
const OPENER = /^---(?:[ \t\n]|\r\n|$)/;

/**
 * The `---` or `...` line, if one is needed, between the text of a cell, whose last line has ended, and that of the next.
 * `mayStandBare`: no `---` is put where a `...` of the cell before suffices.
 */
export function separatorOf(before: string, text: string, end: string, mayStandBare = false): string {
  if (OPENER.test(text)) return '';
  const isOpened = opens(text);
  if ((isOpened || mayStandBare) && beginsBehind(before, text)) return '';
  // What stands above a `---` would belong to a cell that is not closed.
  return `${isOpened ? '...' : '---'}${end}`;
}

/** Whether a cell begins where the second text does. */
function beginsBehind(before: string, text: string): boolean {
  return cellsIn(before + text).some(({ from }) => from === before.length + 1);
}

export function missingEnd(text: string, end: string): string {
  return text === '' || text.endsWith('\n') ? '' : endBehind(text, end);
}

/** The line end itself, such that a lone return before it stays one. */
export function endBehind(text: string, end: string): string {
  return text.endsWith('\r') ? '\r\n' : end;
}

/** Whether a text brings the line that opens its cell, maybe below others, so that below a `---` it would be a cell more. */
export function opens(text: string): boolean {
  if (!text.includes('---') && !text.includes('...')) return false;
  return cellsIn(`---\n${text}`).length > Math.max(1, cellsIn(text).length);
}

/** Whether the last cell of a text is closed by a `...` line. */
export function closes(text: string): boolean {
  return cellsIn(text).at(-1)?.closer !== undefined;
}

/** Of a text inside a file, where a byte order mark is a character like any other: so it is set below an empty line. */
function cellsIn(text: string): readonly Extent[] {
  const below = `\n${text}`;
  return extentsOf(below, markersIn(below, ['---', '...']), conflictsOf(markersIn(below, CONFLICT_MARKERS))).cells;
}
