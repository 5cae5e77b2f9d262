/**
 * Stale marks: something after them may have moved the beam. They are not wrong, so there is no finding: they are shown
 * faded, with what came after them.
 */
import { pathTo, ROOT, type Span } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';
import type { RelatedPlace } from './related-places.ts';

/** The marks of one stale station, with the cell that made them stale. */
export interface StaleMarks {
  readonly cell: number;
  readonly span: Span;
  readonly message: string;
  readonly since: readonly RelatedPlace[];
}

/** The last marks of every stale station. The book must be up to date. */
export function staleMarksOf(book: Book): StaleMarks[] {
  return book.evaluation().stations.flatMap(({ name, readings, staleSince }): StaleMarks[] => {
    const last = readings.at(-1);
    const marks = last && entriesOf(book, last.cell).find(({ entry }) => entry.kind === 'marks')?.entry;
    const span = marks?.spans[pathTo('shots')] ?? marks?.spans[pathTo('marks')];
    if (staleSince === undefined || !last || !span) return [];
    const mover = entriesOf(book, staleSince)[0]?.entry;
    const place = mover && (mover.spans[pathTo(mover.kind)] ?? mover.spans[ROOT]);
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
