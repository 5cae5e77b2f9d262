/** What stands below a cell of a notebook: for marks their tape as it was then, below the last cell what to do next. */
import type { CellView } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';
import { adviceInBrief } from '../hints/step-hint.ts';
import { turnHint } from '../hints/turn-hint.ts';
import { sheetOf } from './sheet.ts';
import { targetFigure } from './target.ts';

/** Of a book that is up to date; undefined where a cell has nothing to show. */
export function cellSheet(book: Book, cell: number): CellView | undefined {
  const standing = entriesOf(book, cell).at(-1);
  if (!standing) return undefined;
  const { entry, index } = standing;
  const isLast = index === book.workbook.entries.length - 1;
  const figure = entry.kind === 'marks' ? targetFigure(book, entry.station, { count: index + 1 }) : undefined;
  const turned = entry.kind === 'adjust' ? turnHint(book, standing)[0]?.label : undefined;
  const says = [
    figure && `${figure.station}: ${figure.words}`,
    turned,
    isLast ? adviceInBrief(book.evaluation()) : undefined,
  ]
    .filter((part) => part !== undefined)
    .map((part, k) => (k === 0 ? part : `${part[0]!.toUpperCase()}${part.slice(1)}`))
    .join('. ');
  const mounts = isLast
    ? sheetOf(book, {})?.mounts.filter(({ screws }) => screws.some(({ turns }) => turns !== 0))
    : undefined;
  if (says === '' && !figure) return undefined;
  return { says, ...(figure && { figure }), ...(mounts && mounts.length > 0 && { mounts }) };
}
