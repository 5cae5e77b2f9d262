/** The machine that is in force at a cell. */
import type { Machine } from '../../model/index.ts';
import type { Book } from './book-type.ts';

/** The cell's own machine, if it describes one; undefined below a machine cell with errors. */
export function machineAt(book: Book, cell: number): Machine | undefined {
  const entry = book.last('machine', cell)?.entry;
  return entry?.kind === 'machine' ? entry.machine : undefined;
}
