/**
 * Cells → text again. Whatever was not changed is written back byte for byte; only what is put in takes the file's
 * line end and, where it needs one, a `---` of its own.
 */
import type { Split } from './cell.ts';
import { extentsOf } from './extents.ts';
import { afterMark, lineEndOf } from './lines.ts';
import { markersIn } from './markers.ts';
import { closes, opens } from './separator.ts';

/** The text that was split, byte for byte. */
export function joinCells({ head, cells, tail }: Pick<Split, 'head' | 'cells' | 'tail'>): string {
  return head + cells.map((cell) => cell.text).join('') + tail;
}

/**
 * `text` with the cell at `index` of its split replaced; every other character stays. `cellText` may come without the
 * `---` and `...` lines that the old one had, and without its last line end: they are put there where the cells around
 * it need them. Its own line ends are kept as they are. A RangeError when there is no such cell.
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

/** `text` with new cells behind its last, each with a `---` where it needs one; line ends become the file's. */
export function appendCells(text: string, cellTexts: readonly string[]): string {
  const end = lineEndOf(text);
  const { cells, prelude } = extentsOf(text, markersIn(text, ['---', '...']), []);
  let bare = cells.length === 0 && prelude.length === 0; // a directive asks for a `---`
  let result = text.length === afterMark(text) || text.endsWith('\n') ? text : text + end;
  for (const cellText of cellTexts) {
    const opened = bare || opens(cellText) ? cellText : `---\n${cellText}`;
    const unified = opened.replace(/\r?\n/g, end);
    result += unified.endsWith('\n') ? unified : unified + end;
    bare = false;
  }
  return result;
}
