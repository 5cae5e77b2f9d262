/** The machine that is in force at a cell. */
import type { Machine } from '../../model/index.ts';
import type { Book } from './book-type.ts';

/** That of the cell itself where it describes one; none below one that cannot be read. */
export function machineAt(book: Book, cell: number): Machine | undefined {
  const entry = book.last('machine', cell)?.entry;
  return entry?.kind === 'machine' ? entry.machine : undefined;
}
