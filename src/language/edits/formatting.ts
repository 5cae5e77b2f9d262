/** The usual layout, cell by cell: what a cell does not need is not touched. */
import { splitCells } from '../../cells/index.ts';
import { formatCell } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';

/** @param wanted which cells, by index and text */
export function formatting({ split }: Book, wanted: (index: number, text: string) => boolean): Change[] {
  return split.cells.flatMap(({ start, text, readings }, index) => {
    // Both sides of a conflict stay as they are.
    if (readings.length !== 1 || /^(?:\.\.\.|<{7}|={7}|>{7}|\|{7})/m.test(text) || !wanted(index, text)) return [];
    const made = formatCell(text);
    return made === text ? [] : [smallest(start, text, made)];
  });
}

/** Which cells do not stand in the text as it was then. */
export function touchedSince(text: string): (index: number, text: string) => boolean {
  const then = new Set(splitCells(text).cells.map((cell) => cell.text));
  return (_, now) => !then.has(now);
}

/** Without what both begin and end with. */
function smallest(from: number, before: string, after: string): Change {
  const most = Math.min(before.length, after.length);
  let [head, tail] = [0, 0];
  while (head < most && before[head] === after[head]) head++;
  while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return { start: from + head, end: from + before.length - tail, text: after.slice(head, after.length - tail) };
}
