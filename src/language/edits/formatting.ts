/** Formats cell by cell, with a minimal change for each. */
import { splitCells } from '../../cells/index.ts';
import { formatCell } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';

/** @param isIncluded which cells, by index and text */
export function formatting({ split }: Book, isIncluded: (index: number, text: string) => boolean): Change[] {
  return split.cells.flatMap(({ start, text, readings }, index) => {
    // Both sides of a conflict stay as they are.
    if (readings.length !== 1 || /^(?:\.\.\.|<{7}|={7}|>{7}|\|{7})/m.test(text) || !isIncluded(index, text)) return [];
    const made = formatCell(text);
    return made === text ? [] : [smallest(start, text, made)];
  });
}

/** The cells that are not in the earlier text. */
export function touchedSince(text: string): (index: number, text: string) => boolean {
  const then = new Set(splitCells(text).cells.map((cell) => cell.text));
  return (_, now) => !then.has(now);
}

/** The change without the common beginning and end. */
export function smallest(from: number, before: string, after: string): Change {
  const most = Math.min(before.length, after.length);
  let [head, tail] = [0, 0];
  while (head < most && before[head] === after[head]) head++;
  while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return { start: from + head, end: from + before.length - tail, text: after.slice(head, after.length - tail) };
}
