/** A mark placed on the picture is the mark that is read from the text afterwards, and nothing else of the text changes. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeMark, slotsOf, targetFigure, type Book } from '../../src/language/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { bookOf } from '../support/workbook.ts';

const INCHES = MACHINE.replace('machine: wren\n', 'machine: wren\nunits: in\n');
const FORMS: readonly [name: string, station: string, cell: string, machine: string | undefined][] = [
  ['by stop', 'M2', 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n', undefined],
  ['blank, as the advice leaves it', 'M2', 'marks: M2\nshots:\n  near: \n  far: \n', undefined],
  ['blank, nothing behind the colon', 'M2', 'marks: M2\nshots:\n  near:\n  far:\n', undefined],
  ['blank before a remark', 'M2', 'marks: M2\nshots:\n  near: # dusty\n  far:   # hazy\n', undefined],
  [
    'a list with places',
    'M3',
    'marks: M3\nshots:\n  - {at: near, mark: }\n  - {at: far, with: {M2: far}, mark: 1 right 1 up}\n',
    undefined,
  ],
  [
    'a block list',
    'M3',
    'marks: M3\nshots:\n  - at: near\n    mark: 2 left 1 down size 4 mm shape oval\n  - at: far\n    with: {M2: far}\n    mark:\n',
    undefined,
  ],
  ['repeated shots', 'M1', 'marks: M1\nshots: {here: [1 right 1 up, 2 right 2 up]}\n', undefined],
  ['one bare mark', 'M1', 'marks: M1\nshots: centre # before lunch\n', undefined],
  ['quoted', 'M1', 'marks: M1\nshots: "1 right 2 up"\n', undefined],
  ['signed numbers', 'M2', 'marks: M2\nshots: {near: {right: 1, up: -2, shape: oval}, far: centre}\n', undefined],
  [
    'read from behind',
    'M2',
    'marks: M2\nseen: against beam\nshots: {near: 1 left 2 up, far: {right: 1, up: 2}}\n',
    undefined,
  ],
  [
    'an upright leg',
    'lens',
    'marks: lens\nshots:\n  - {at: here, mark: 1 rear 1 left}\n  - {at: here, with: {M2: far, M3: far}, mark: }\n',
    undefined,
  ],
  ['a machine in inches', 'M1', 'marks: M1\nshots: {here: 0.1 right 0.1 up}\n', INCHES],
  ['no end of line', 'M1', 'marks: M1\nshots: centre', undefined],
];

const numRuns = Number(process.env['RUNS'] ?? 10);

describe.each(FORMS)('%s', (_name, station, cell, machine) => {
  test.each([['\n'], ['\r\n']])('line ends %j', (end) => {
    const text = [machine ?? MACHINE, LIMITS, cell].join('---\n').replaceAll('\n', end);
    const slots = slotsOf(bookOf(text), station);
    expect(slots.length).toBeGreaterThan(0);
    fc.assert(
      fc.property(
        fc.nat(slots.length - 1),
        fc.double({ min: -9, max: 9, noNaN: true }),
        fc.double({ min: -9, max: 9, noNaN: true }),
        (k, right, up) => {
          const book = bookOf(text);
          const slot = slotsOf(book, station)[k]!;
          const changes = placeMark(book, slot, { right, up })!;
          const after = applied(text, changes);
          const now = slotsOf(bookOf(after), station)[k]!;
          expect({ right: now.right, up: now.up, label: now.label }).toEqual({
            right: halves(right),
            up: halves(up),
            label: slot.label,
          });
          // Nothing but words of a mark is taken out.
          for (const { start, end } of changes) expect(text.slice(start, end)).toMatch(/^["']?[\w .-]*["']?$/);
          expect(after.split(end).length).toBe(text.split(end).length);
          // The same point again changes nothing.
          expect(applied(after, placeMark(bookOf(after), now, { right, up })!)).toBe(after);
        },
      ),
      { numRuns, seed: Number(process.env['SEED'] ?? 1) },
    );
  });
});

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

test('what is placed on the picture is drawn there', () => {
  const book = bookOf([MACHINE, LIMITS, 'marks: M2\nshots: {near: centre, far: centre}\n'].join('---\n'));
  const [near] = slotsOf(book, 'M2');
  const after = bookOf(applied(book.text, placeMark(book, near!, { right: -1.6, up: 2.2 })!));
  expect(targetFigure(after, 'M2')!.marks.map(({ right, up }) => [right, up])).toEqual([
    [-1.5, 2],
    [0, 0],
  ]);
});

test('where no single mark stands, nothing is written', () => {
  const book = bookOf([MACHINE, LIMITS, 'marks: M2\nshots: {near: centre, far: centre}\n'].join('---\n'));
  for (const path of ['marks', 'shots', 'shots/mid', ''])
    expect(placeMark(book, { cell: 2, path }, { right: 1, up: 1 })).toBeUndefined();
});

function applied(text: string, changes: readonly { start: number; end: number; text: string }[]): string {
  return changes
    .toSorted((one, other) => other.start - one.start)
    .reduce((so, { start, end, text: put }) => so.slice(0, start) + put + so.slice(end), text);
}

function halves(value: number): number {
  return Math.round(value * 2) / 2 + 0;
}
