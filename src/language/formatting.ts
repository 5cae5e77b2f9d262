/** The usual layout, cell by cell: what a cell does not need is not touched. */
import { formatCell } from '../workbook/index.ts';
import type { Book } from './book.ts';
import type { Change } from './fixes.ts';

/** @param wanted which cells, by index and text */
export function formatting({ split }: Book, wanted: (index: number, text: string) => boolean): Change[] {
  return split.cells.flatMap(({ start, text, readings }, index) => {
    // Both sides of a conflict stay as they are.
    if (readings.length !== 1 || /^(?:\.\.\.|<{7}|={7}|>{7}|\|{7})/m.test(text) || !wanted(index, text)) return [];
    const made = formatCell(text);
    return made === text ? [] : [smallest(start, text, made)];
  });
}

/** Without what both begin and end with. */
function smallest(from: number, before: string, after: string): Change {
  const most = Math.min(before.length, after.length);
  let [head, tail] = [0, 0];
  while (head < most && before[head] === after[head]) head++;
  while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return { start: from + head, end: from + before.length - tail, text: after.slice(head, after.length - tail) };
}
