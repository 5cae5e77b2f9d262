/** Finds entries by their cell; both are in file order. */
import { cellAround, firstAt } from '../../cells/index.ts';
import type { LogEntry } from '../../model/index.ts';
import type { Book } from './book-type.ts';

export interface IndexedEntry extends LogEntry {
  /** Its index in the log. */
  readonly index: number;
}

/** The entries of the cells from `first` up to `end`, exclusive. */
export function entriesOf({ workbook: { entries } }: Book, first: number, end = first + 1): IndexedEntry[] {
  const indexed: IndexedEntry[] = [];
  for (let index = firstAt(entries, first); index < entries.length && entries[index]!.cell < end; index++)
    indexed.push({ ...entries[index]!, index });
  return indexed;
}

/** Whether the log is folded up to this cell, so that its result there needs no further work. */
export function isFolded({ workbook: { entries }, log, isRead }: Book, cell: number): boolean {
  return isRead && firstAt(entries, cell + 1) <= log.folded;
}

/** Index of the cell that contains an offset; −1 before the first. */
export function cellAt({ split: { cells } }: Pick<Book, 'split'>, offset: number): number {
  return cellAround(cells, offset);
}
