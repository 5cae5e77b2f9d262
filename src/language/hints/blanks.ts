/** What belongs where a value is blank, to be shown in its place. */
import { isVertical, pathsIn, type Finding } from '../../model/index.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';
import { machineAt } from '../book/machine-at.ts';
import { markPaths, MARKS, textAt } from '../book/mark-slots.ts';

export interface Blank {
  /** Offset in the file. */
  readonly at: number;
  /** `right or left, up or down` */
  readonly text: string;
}

/** The blanks of the log, in file order. */
export function blanksOf(book: Book): Blank[] {
  return book
    .findings()
    .filter(({ code }) => code === 'cell.blank')
    .map((finding) => ({ at: behindColon(book, finding), text: belongs(book, finding) }));
}

/** The place of a missing value is the end of its key. */
function behindColon({ split, text }: Book, { cell, span }: Finding): number {
  const end = split.cells[cell]!.start + span.end;
  return end + (/^: ?/.exec(text.slice(end, end + 2))?.[0].length ?? 0);
}

function belongs(book: Book, { cell, span, facts }: Finding): string {
  const { text } = book.split.cells[cell]!;
  for (const { entry } of entriesOf(book, cell, cell + 1)) {
    const { spans } = entry;
    const path = pathsIn(spans).find((one) => spans[one]!.start === span.start && spans[one]!.end === span.end);
    if (path === undefined || !spans[MARKS] || !markPaths(spans).includes(path)) continue;
    const machine = machineAt(book, cell);
    const runs = machine && arrivesAt(machine, textAt(MARKS, spans, text));
    return runs && isVertical(runs) ? 'right or left, front or rear' : 'right or left, up or down';
  }
  const wanted = facts['wanted'] ?? '';
  if (wanted.startsWith('a turn')) return 'in or out, then the turn';
  if (wanted.startsWith('a date')) return 'YYYY-MM-DD';
  if (facts['place'] === '`by`' || facts['place'] === '`witness`') return 'name';
  return wanted.replace(/^an? /, '').replaceAll('`', '');
}
