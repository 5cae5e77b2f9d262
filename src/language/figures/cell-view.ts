/** The view model below a notebook cell: for marks their tape at that moment, for the last cell what to do next. */
import type { CellView } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';
import { adviceNow } from '../hints/advice-now.ts';
import { turnHint } from '../hints/turn-hint.ts';
import { panelView } from './panel-view.ts';
import { targetFigure } from './target.ts';

/** The book must be up to date. Undefined if the cell has nothing to show. */
export function cellView(book: Book, cell: number): CellView | undefined {
  const logged = entriesOf(book, cell).at(-1);
  if (!logged) return undefined;
  const { entry, index } = logged;
  const isLast = index === book.workbook.entries.length - 1;
  const figure = entry.kind === 'marks' ? targetFigure(book, entry.station, { count: index + 1 }) : undefined;
  const turned = entry.kind === 'adjust' ? turnHint(book, logged)[0]?.label : undefined;
  const text = [figure && `${figure.station}: ${figure.words}`, turned, isLast ? adviceNow(book).sentence : undefined]
    .filter((part) => part !== undefined)
    .map((part, k) => (k === 0 ? part : `${part[0]!.toUpperCase()}${part.slice(1)}`))
    .join('. ');
  const mounts = isLast
    ? panelView(book, {})?.mounts.filter(({ screws }) => screws.some(({ turns }) => turns !== 0))
    : undefined;
  if (text === '' && !figure) return undefined;
  return { text, ...(figure && { figure }), ...(mounts && mounts.length > 0 && { mounts }) };
}
