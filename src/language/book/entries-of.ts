/** Entries by the cell that they stand in: both are in file order. */
import { cellAround, firstAt } from '../../cells/index.ts';
import type { LogEntry } from '../../model/index.ts';
import type { Book } from './book-type.ts';

export interface Standing extends LogEntry {
  /** In the log. */
  readonly index: number;
}

/** Of the cells from `first` up to `end`, not included. */
export function entriesOf({ workbook: { entries } }: Book, first: number, end = first + 1): Standing[] {
  const found: Standing[] = [];
  for (let index = firstAt(entries, first); index < entries.length && entries[index]!.cell < end; index++)
    found.push({ ...entries[index]!, index });
  return found;
}

/** Whether the log is folded up to this cell, and what it meant then can be told without working through what follows. */
export function isFolded({ workbook: { entries }, log, isRead }: Book, cell: number): boolean {
  return isRead && firstAt(entries, cell + 1) <= log.folded;
}

/** Index of the cell that holds an offset; −1 before the first. */
export function cellAt({ split: { cells } }: Pick<Book, 'split'>, offset: number): number {
  return cellAround(cells, offset);
}
