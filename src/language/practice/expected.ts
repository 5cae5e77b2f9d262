/** What the learner expected of the marks of a cell, written as `x-expected` before they were fired. */
import { pathTo, type Axes, type Shot } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { MARKS, textAt } from '../book/mark-slots.ts';

/** The key of the expectation, with its value in the form of `shots`: the reader leaves keys of one's own alone. */
export const EXPECTED = /^x-expected:(?<value>.*(?:\r?\n(?:[ \t].*|-(?: .*)?$))*)/m;

/**
 * Reads it as the shots of a marks cell at the same place in the log.
 *
 * @returns by the place of a shot; empty if there is none, or it cannot be read
 */
export function expectationOf(book: Book, cell: number): ReadonlyMap<string, Axes> {
  const own = book.split.cells[cell];
  const logged = book.workbook.entries.find((one) => one.cell === cell);
  if (!own || !logged) return new Map();
  const value = EXPECTED.exec(own.text)?.groups?.['value'];
  const station = textAt(MARKS, logged.entry.spans, own.text);
  if (value === undefined || station === '') return new Map();
  const seen = textAt(pathTo('seen'), logged.entry.spans, own.text);
  const marks = `---\nmarks: ${station}\nshots:${value}\n${seen === '' ? '' : `seen: ${seen}\n`}`;
  const entry = book.readAs(`${book.text.slice(0, own.start)}${marks}`).entries.at(-1)?.entry;
  if (entry?.kind !== 'marks') return new Map();
  return new Map(
    entry.shots.flatMap((shot): [string, Axes][] => {
      const [mark] = shot.marks;
      return mark?.right === undefined || mark.up === undefined
        ? []
        : [[placeKey(shot), { right: mark.right, up: mark.up }]];
    }),
  );
}

/** The same for shots at one place. */
export function placeKey({ carriages, height }: Pick<Shot, 'carriages' | 'height'>): string {
  return JSON.stringify([Object.entries(carriages).toSorted(), height]);
}
