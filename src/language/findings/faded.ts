/**
 * Marks that no longer hold, because something came since that can have moved them. Nothing is wrong with them, so they
 * are no finding: they are shown paler, with what came since.
 */
import type { Span } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';
import type { Related } from './related.ts';

export interface Faded {
  readonly cell: number;
  readonly span: Span;
  readonly message: string;
  readonly since: readonly Related[];
}

/** The last marks of every station that is stale; of a book that is up to date. */
export function fadedOf(book: Book): Faded[] {
  return book.evaluation().stations.flatMap(({ name, readings, staleSince }): Faded[] => {
    const last = readings.at(-1);
    const marks = last && entriesOf(book, last.cell).find(({ entry }) => entry.kind === 'marks')?.entry;
    const span = marks?.spans['shots'] ?? marks?.spans['marks'];
    if (staleSince === undefined || !last || !span) return [];
    const mover = entriesOf(book, staleSince)[0]?.entry;
    const place = mover && (mover.spans[mover.kind] ?? mover.spans['']);
    return [
      {
        cell: last.cell,
        span,
        message: `The marks on ${name} are stale.`,
        since: place ? [{ cell: staleSince, span: place, message: 'This was done since' }] : [],
      },
    ];
  });
}
