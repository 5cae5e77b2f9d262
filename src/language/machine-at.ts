/** The machine that is in force at a cell. */
import type { Machine } from '../model/index.ts';
import type { Book } from './book.ts';

/** That of the cell itself where it describes one. */
export function machineAt({ workbook }: Book, cell: number): Machine | undefined {
  const found = workbook.entries.findLast(({ cell: at, entry }) => at <= cell && (entry.kind === 'machine' || (entry.kind === 'unread' && entry.of === 'machine')));
  return found?.entry.kind === 'machine' ? found.entry.machine : undefined;
}

