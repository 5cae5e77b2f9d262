/** The view below a notebook cell: what the cell led to, at that moment. */
import type { CellView, Kind } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';
import { pathFigure } from '../figures/path.ts';
import { adjustView } from './adjust-view.ts';
import { careView } from './care-view.ts';
import { marksView } from './marks-view.ts';

const HAVE_VIEWS: ReadonlySet<Kind> = new Set(['marks', 'adjust', 'care', 'machine']);

/** The book must be up to date. Undefined if the cell has nothing to show. */
export function cellView(book: Book, cell: number): CellView | undefined {
  const logged = entriesOf(book, cell).at(-1);
  if (!logged) return undefined;
  const { entry, index } = logged;
  switch (entry.kind) {
    case 'marks':
      return marksView(book, { entry, index, cell });
    case 'adjust':
      return adjustView(book, { entry, index, cell });
    case 'care':
      return careView(book, { entry, index, cell });
    case 'machine': {
      const figure = book.last('machine', Infinity)?.cell === cell ? pathFigure(book) : undefined;
      return figure && { kind: 'machine', figure };
    }
    case 'unread':
      return entry.of && HAVE_VIEWS.has(entry.of) ? { kind: 'unread' } : undefined;
    default:
      return undefined;
  }
}
