/** Below care: what it did to the marks, how the part was found on the last visits, and when it is due. */
import { careHistory, dueInWords } from '../../history/index.ts';
import { listed } from '../../words/index.ts';
import type { CareEntry, CareView } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { IndexedEntry } from '../book/entries-of.ts';

/** Dots in a row. */
const MOST_VISITS = 6;

/** Undefined without a machine: then nothing is known but what the cell says. */
export function careView(
  book: Book,
  { entry, index }: IndexedEntry & { readonly entry: CareEntry },
): CareView | undefined {
  if (!book.last('machine', Infinity)) return undefined;
  const history = careHistory(book.workbook.entries.slice(0, index + 1)).parts.find(({ part }) => part === entry.part);
  if (!history) return undefined;
  const { cares, due } = history;
  return {
    kind: 'care',
    effect: effectOf(book, index),
    visits: cares.slice(-MOST_VISITS).map(({ found, did, date }) => ({
      found: found ?? did ?? 'cared for',
      isClean: found === undefined || found === 'clean',
      ...(date !== undefined && { date }),
    })),
    ...(due && { due: 'on' in due ? `next by ${due.on}` : dueInWords(history)! }),
  };
}

function effectOf({ log }: Book, index: number): string {
  const { stations } = log.evaluation(index + 1);
  const isFresh = (name: string, count: number) => {
    const report = log.report(name, count);
    return report !== undefined && report.readings.length > 0 && report.staleSince === undefined;
  };
  const before = stations.map(({ name }) => name).filter((name) => isFresh(name, index));
  const stale = before.filter((name) => !isFresh(name, index + 1));
  if (stale.length > 0) return `the marks on ${listed(stale)} are stale`;
  return before.length > 0 ? 'nothing moved, marks hold' : 'nothing moved';
}
