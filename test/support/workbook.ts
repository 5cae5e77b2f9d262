/** Short workbooks for tests: `$0` is the cursor; a line `# = …` below a line says what is expected of it. */
import { createBook, expressions, type Book } from '../../src/language/index.ts';
import { threads } from '../../src/machine/index.ts';
import type { ReadFile } from '../../src/workbook/index.ts';
import { LIMITS, MACHINE } from './log.ts';

/** The machine and limits of the other tests, then this. */
export function after(...cells: string[]): string {
  return [MACHINE, LIMITS, ...cells].join('---\n');
}

export function bookOf(text: string, files: Readonly<Record<string, string>> = {}): Book {
  const shelf = new Map(Object.entries(files).map(([path, found]): [string, ReadFile] => [path, { text: found }]));
  const book = createBook({ threads, expressions }, 'test.alignbook.yaml', shelf, text);
  book.advance(() => false);
  return book;
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
