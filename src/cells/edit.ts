/**
 * Converts cells back to text. Cells that were not edited keep their exact bytes; inserted cells get the file's line
 * end and, if needed, a `---` line.
 */
import type { Split } from './cell.ts';
import { extentsOf } from './extents.ts';
import { textStart, lineEndOf } from './lines.ts';
import { markersIn } from './markers.ts';
import { closes, opens } from './separator.ts';

/** The original text, byte for byte. */
export function joinCells({ head, cells, tail }: Pick<Split, 'head' | 'cells' | 'tail'>): string {
  return head + cells.map((cell) => cell.text).join('') + tail;
}

/**
 * Replaces the cell at `index` in `text`; every other character stays. `cellText` may lack the `---` and `...` lines of
 * the old cell and the last line end: they are added where the neighbouring cells need them. Its own line ends are
 * kept.
 * @throws RangeError if there is no such cell
 */
export function replaceCell(text: string, split: Split, index: number, cellText: string): string {
  const cell = split.cells[index];
  if (!cell) throw new RangeError(`cell ${index} of ${split.cells.length}`);
  const end = lineEndOf(text);
  const behind = text.slice(cell.start + cell.text.length);
  const opened = opens(cell.text) && !opens(cellText) ? `---${end}${cellText}` : cellText;
  const ended = behind === '' || opened === '' || opened.endsWith('\n') ? opened : opened + end;
  const next = split.cells[index + 1];
  const needsCloser = closes(cell.text) && !closes(cellText) && (next ? !opens(next.text) : split.tail !== '');
  return text.slice(0, cell.start) + ended + (needsCloser ? `...${end}` : '') + behind;
}

/** Appends cells, each with a `---` if needed, with the line ends of the file. */
export function appendCells(text: string, cellTexts: readonly string[]): string {
  const end = lineEndOf(text);
  const { cells, prelude } = extentsOf(text, markersIn(text, ['---', '...']), []);
  let bare = cells.length === 0 && prelude.length === 0; // a directive requires a `---`
  let result = text.length === textStart(text) || text.endsWith('\n') ? text : text + end;
  for (const cellText of cellTexts) {
    const opened = bare || opens(cellText) ? cellText : `---\n${cellText}`;
    const unified = opened.replace(/\r?\n/g, end);
    result += unified.endsWith('\n') ? unified : unified + end;
    bare = false;
  }
  return result;
}
