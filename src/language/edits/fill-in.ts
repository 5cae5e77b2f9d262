/** Fills in the marks that the last cell leaves blank, tapes on the bed included, and reads them back. */
import { markInWords, placeInWords } from '../../words/index.ts';
import { message, severity, type Finding, type Path, type StationReport } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { isOfMarks, markPaths, MARKS, marksRead, placeOfMark, textAt } from '../book/mark-slots.ts';
import { withMark } from './place-mark.ts';

export interface BlankMark {
  readonly path: Path;
  /** `gantry near M1 (rear), head near M2 (left)`, `20 mm below`; empty for the only tape of a station. */
  readonly label: string;
  /** Its stop or leg, as it is written. */
  readonly at: string;
}

/** The blank marks of the last cell, and their station; undefined if it has none. The book must be folded. */
export function blankMarks(
  book: Book,
): { readonly report: StationReport; readonly blanks: readonly BlankMark[] } | undefined {
  const last = book.workbook.entries.at(-1);
  if (!last || !isOfMarks(last.entry)) return undefined;
  const { spans } = last.entry;
  const { text } = book.split.cells[last.cell]!;
  const report = book.log.report(textAt(MARKS, spans, text), book.workbook.entries.length);
  const blanks = markPaths(spans, true).filter((path) => textAt(path, spans, text) === '');
  if (!report || blanks.length === 0) return undefined;
  return {
    report,
    blanks: blanks.map((path) => {
      const { at, others, height, number } = placeOfMark(path, spans, text);
      const place = [
        placeInWords(report.carriages, at, others),
        height === undefined ? '' : `${height} below`,
        number === undefined ? '' : `mark ${number}`,
      ];
      return { path, at, label: place.filter(Boolean).join(', ') };
    }),
  };
}

/** The text of the workbook with these marks of its last cell. */
export function filledIn({ split, workbook, text }: Book, marks: ReadonlyMap<Path, string>): string {
  const { entry, cell } = workbook.entries.at(-1)!;
  const own = split.cells[cell]!;
  const changes = [...marks].map(([path, words]) => withMark(own.text, entry.spans[path]!, words));
  return changes
    .toSorted((one, other) => other.start - one.start)
    .reduce(
      (whole, { start, end, text: put }) => whole.slice(0, own.start + start) + put + whole.slice(own.start + end),
      text,
    );
}

/** A mark in words as the workbook reads it, with what is odd about it; or why it cannot be read. */
export type MarkRead = { readonly words: string; readonly odd: readonly string[] } | { readonly problem: string };

/** What a mark consists of. Anything else could end the value that it is written into. */
const OF_MARKS = /^[\w .±/+:×-]+$/;

/** Reads one mark of the last cell, the other blanks as missed. The book is left as it was. */
export function readBack(book: Book, path: Path, mark: string): MarkRead {
  if (/\d,\d/.test(mark)) return { problem: 'A decimal point is used here, not a comma.' };
  if (!OF_MARKS.test(mark)) return { problem: 'A mark is such as `2.5 right 3 down`, `centre` or `none`.' };
  const { text } = book;
  const others = blankMarks(book)?.blanks ?? [];
  book.change(filledIn(book, new Map([...others.map((blank) => [blank.path, 'none'] as const), [path, mark]])));
  book.fold();
  const read = readingOf(book, path);
  book.change(text);
  book.fold();
  return read;
}

function readingOf(book: Book, path: Path): MarkRead {
  const { entry, cell } = book.workbook.entries.at(-1)!;
  const span = entry.spans[path];
  const isHere = (finding: Finding) =>
    finding.cell === cell && span !== undefined && finding.span.start >= span.start && finding.span.end <= span.end;
  const wrong = book.findingsSoFar().filter((finding) => finding.cell === cell && severity(finding) === 'error');
  const first = wrong.find(isHere) ?? wrong[0];
  if (first) return { problem: message(first) };
  const read = entry.kind === 'marks' ? marksRead(entry).get(path) : undefined;
  const report = entry.kind === 'marks' ? book.log.report(entry.station, book.workbook.entries.length) : undefined;
  if (!read || !report) return { problem: 'This is not a mark.' };
  const odd = book
    .findings()
    .filter((finding) => isHere(finding) && severity(finding) !== 'hint')
    .map(message);
  if (read.none) return { words: 'none: the beam missed the tape', odd };
  return { words: markInWords(read.right, read.up, report.frame), odd };
}
