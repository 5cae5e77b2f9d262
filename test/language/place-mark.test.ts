/**
 * A mark placed on the picture is the mark that is read from the text afterwards, and nothing else of the text changes.
 */
import { expect, test } from 'vitest';
import {
  amendMark,
  placeInNewVisit,
  placeMark,
  signatureBelow,
  slotsOf,
  targetFigure,
  type Book,
} from '../../src/language/index.ts';
import { pathTo, ROOT } from '../../src/model/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { bookOf, changed } from '../support/workbook.ts';
import { FORMS } from './mark-forms.ts';

test('slots bear the places that people know, and the tapes on the bed are none', () => {
  const labels = (book: Book, station: string) => slotsOf(book, station).map(({ label }) => label);
  expect(labels(bookOf([MACHINE, LIMITS, FORMS[4]![2]].join('---\n')), 'M3')).toEqual([
    'near (left)',
    'far (right), M2 far (front)',
  ]);
  expect(labels(bookOf([MACHINE, LIMITS, FORMS[6]![2]].join('---\n')), 'M1')).toEqual(['here (1)', 'here (2)']);
  const bed = 'marks: lens\nshots:\n  - {at: here, mark: centre}\n  - {at: here, height: 80 mm, mark: 1 rear 1 left}\n';
  expect(labels(bookOf([MACHINE, LIMITS, bed].join('---\n')), 'lens')).toEqual(['here']);
});

test('shots that are one signed mark offer that mark, not its numbers', () => {
  const book = bookOf([MACHINE, LIMITS, 'marks: M1\nshots: {right: 1.5, up: -2}\n'].join('---\n'));
  expect(slotsOf(book, 'M1')).toMatchObject([{ cell: 2, path: 'shots', label: 'here', right: 1.5, up: -2 }]);
  const after = changed(book.text, placeMark(book, slotsOf(book, 'M1')[0]!, { right: 0.5, up: 1 })!);
  expect(after).toContain('shots: {right: 0.5, up: 1}\n');
});

test('what is placed on the picture is drawn there', () => {
  const book = bookOf([MACHINE, LIMITS, 'marks: M2\nshots: {near: centre, far: centre}\n'].join('---\n'));
  const [near] = slotsOf(book, 'M2');
  const after = bookOf(changed(book.text, placeMark(book, near!, { right: -1.6, up: 2.2 })!));
  expect(targetFigure(after, 'M2')!.marks.map(({ right, up }) => [right, up])).toEqual([
    [-1.5, 2],
    [0, 0],
  ]);
});

test('without a single mark at the path nothing is written', () => {
  const book = bookOf([MACHINE, LIMITS, 'marks: M2\nshots: {near: centre, far: centre}\n'].join('---\n'));
  for (const path of [pathTo('marks'), pathTo('shots'), pathTo('shots', 'mid'), ROOT])
    expect(placeMark(book, { cell: 2, path }, { right: 1, up: 1 })).toBeUndefined();
});

const SIGNED = 'release: in service\nby: jv\ndate: 2026-03-07\n';

test('a mark of a signed visit is known as such, and one of an open visit is not', () => {
  const cells = [MACHINE, LIMITS, 'session: spring\n', 'marks: M2\nshots: {near: centre, far: centre}\n'];
  const signed = bookOf([...cells, SIGNED].join('---\n'));
  expect(signatureBelow(signed, 3)).toEqual({ by: 'jv', date: '2026-03-07' });
  expect(signatureBelow(bookOf(cells.join('---\n')), 3)).toBeUndefined();
  const later = bookOf([...cells, SIGNED, 'session: autumn\n', 'marks: M2\nshots: {near: centre}\n'].join('---\n'));
  expect([3, 6].map((cell) => signatureBelow(later, cell)?.by)).toEqual(['jv', undefined]);
});

test.each(FORMS)('in a new visit it is the same place, and the signed one keeps every byte: %s', (_, station, cell) => {
  const book = bookOf([MACHINE, LIMITS, cell, SIGNED].join('---\n'));
  for (const slot of slotsOf(book, station)) {
    const text = changed(book.text, placeInNewVisit(book, slot, { right: 1.5, up: -2 })!);
    expect(text.startsWith(book.text)).toBe(true);
    const after = bookOf(text);
    expect(after.workbook.findings.filter(({ cell: of }) => of > 3)).toEqual([]);
    expect(after.workbook.entries.slice(-2).map(({ entry }) => entry.kind)).toEqual(['session', 'marks']);
    const [placed, ...others] = slotsOf(after, station);
    expect([placed?.right, placed?.up, others]).toEqual([1.5, -2, []]);
    expect(placed!.label).toBe(slot.label.replace(/ \(\d\)$/, ''));
  }
});

test('an amended mark keeps what was signed', () => {
  const book = bookOf(
    [MACHINE, LIMITS, 'session: spring\n', 'marks: M2\nshots: {near: centre, far: 1 right 2 up}\n', SIGNED].join(
      '---\n',
    ),
  );
  const far = slotsOf(book, 'M2')[1]!;
  const why = { date: '2026-03-08', by: 'kt', reason: 'read from behind' };
  const text = changed(book.text, amendMark(book, far, { right: -1, up: 2 }, why)!);
  expect(text).toContain(
    'marks: M2\nshots: {near: centre, far: 1 left 2 up}\namended:\n  - {was: {shots: {far: 1 right 2 up}}, date: 2026-03-08, by: kt, reason: read from behind}\n---\n',
  );
  const after = bookOf(text);
  expect(after.findings().map(({ code }) => code)).toEqual(book.findings().map(({ code }) => code));
  // The same mark again is no correction.
  expect(amendMark(book, far, { right: 1, up: 2 }, why)).toEqual([]);
});
