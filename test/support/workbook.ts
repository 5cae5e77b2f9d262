/** Short workbooks for tests: `$0` is the cursor; a line `# = …` below a line gives its expected value. */
import { createBook, expressions, hintsOf, threads, type Book, type Change } from '../../src/language/index.ts';
import { createReader, type ReadFile } from '../../src/workbook/index.ts';
import { LIMITS, MACHINE, reader } from './log.ts';

/** The machine and limits of the other tests, then this. */
export function after(...cells: string[]): string {
  return [MACHINE, LIMITS, ...cells].join('---\n');
}

export function bookOf(text: string, files: Readonly<Record<string, string>> = {}, of = reader): Book {
  const byPath = new Map(Object.entries(files).map(([path, content]): [string, ReadFile] => [path, { text: content }]));
  const book = createBook({ threads, expressions }, 'test.alignbook.yaml', byPath, text, of);
  book.advance(() => false);
  return book;
}

/** One that took nothing over from another, not even cells that were read before. */
export function freshBook(text: string, files: Readonly<Record<string, string>> = {}): Book {
  return bookOf(text, files, createReader({ threads, expressions }));
}

/** All findings and hints of a workbook. */
export function shown(book: Book) {
  const { verdict, steps, stations, expected } = book.evaluation();
  return { findings: book.findings(), hints: hintsOf(book, 0, book.text.length), verdict, steps, stations, expected };
}

/** The text with changes made that do not overlap. */
export function changed(text: string, changes: readonly Change[]): string {
  return changes
    .toSorted((one, other) => other.start - one.start)
    .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}

export interface Marked {
  readonly text: string;
  /** Offset of `$0`. */
  readonly cursor: number;
  /** By 0-based line of `text`. */
  readonly expected: ReadonlyMap<number, string>;
}

export function readMarked(marked: string): Marked {
  const lines: string[] = [];
  const expected = new Map<number, string>();
  for (const line of marked.split('\n')) {
    const said = /^# = (.*)$/.exec(line)?.[1];
    if (said === undefined) lines.push(line);
    else expected.set(lines.length - 1, said);
  }
  const whole = lines.join('\n');
  const cursor = whole.indexOf('$0');
  return { text: whole.replace('$0', ''), cursor, expected };
}

export function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length - 1;
}
