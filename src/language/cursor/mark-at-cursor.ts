/** The station and the mark at an offset in the text. */
import type { TextPlace } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt, entriesOf } from '../book/entries-of.ts';

export interface MarkAtCursor {
  readonly station: string;
  readonly mark?: TextPlace;
}

/** Undefined if the offset is not in a marks cell. */
export function markAtCursor(book: Book, offset: number): MarkAtCursor | undefined {
  const cell = cellAt(book, offset);
  const entry = entriesOf(book, cell)
    .map((one) => one.entry)
    .find(({ kind }) => kind === 'marks');
  if (entry?.kind !== 'marks') return undefined;
  const at = offset - book.split.cells[cell]!.start;
  const shot = entry.shots.find(({ path }) => {
    const span = entry.spans[path];
    return span && span.start <= at && at <= span.end;
  });
  return { station: entry.station, ...(shot && { mark: { cell, path: shot.path } }) };
}
