/** The short way to a cell's tree gives what the library's nodes give, or nothing. */
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { splitCells } from '../../src/cells/index.ts';
import { readPlainCell } from '../../src/workbook/plain-cell.ts';
import { readAnyCell } from '../../src/workbook/any-cell.ts';
import type { Read } from '../../src/workbook/tree.ts';
import { GOOD } from '../workbook/sample.ts';
import { drawn, runs } from '../support/amount.ts';

const root = new URL('../..', import.meta.url).pathname;
const filesIn = (folder: string) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => readFileSync(join(root, folder, name), 'utf8'));
const cellsIn = (text: string) => splitCells(text).cells.flatMap(({ readings }) => readings);

const ordinary = [GOOD, ...filesIn('examples')].flatMap(cellsIn);
const cells = [...ordinary, ...filesIn('test/cases').flatMap(cellsIn)];

/** With the order of the places, in which hints are given. */
const all = ({ tree, places, problems }: Read) => ({ tree, places: [...places], problems });

/** Whether the short way was taken. */
function compare(text: string): boolean {
  const plain = readPlainCell(text);
  if (plain) expect(all(plain), JSON.stringify(text)).toEqual(all(readAnyCell(text)));
  return plain !== undefined;
}

test('cells of the examples and of the cases, with either line end', () => {
  for (const cell of cells) for (const text of [cell, cell.replaceAll('\n', '\r\n')]) compare(text);
});

test('nearly every ordinary cell takes it', () => {
  const plain = ordinary.filter(compare).length;
  expect(plain / ordinary.length).toBeGreaterThan(0.9);
});

test('a long one takes it too, unless it has more values than a cell may have', () => {
  const marks = (count: number) => `marks: M1\nshots: [${'1 right 1 up, '.repeat(count - 1)}centre]\n`;
  expect(compare(marks(8_000))).toBe(true);
  // With the mapping, the station and the list.
  expect([199_997, 199_998].map((count) => readPlainCell(marks(count)) !== undefined)).toEqual([true, false]);
});

const PIECES = [
  ...[
    '',
    ' ',
    '  ',
    '\n',
    '\n  ',
    '\n    ',
    '\r',
    '\r\n',
    '\t',
    '\u00a0',
    '\ufeff',
    '\u0085',
    'é',
    '-',
    '- ',
    '\n- ',
    '\n  - ',
  ],
  ...[
    '#',
    ' #',
    ' # c',
    '\n# c\n',
    '\n  # c\n',
    '\n    # c\n',
    ':',
    ': ',
    ' : ',
    'a: ',
    'x-a: ',
    '\n  a: b',
    '\nb: c',
    '\n__proto__: c',
  ],
  ...[
    '"',
    "'",
    '""',
    "''",
    '{',
    '}',
    '[',
    ']',
    ',',
    ', ',
    '{}',
    '[]',
    '{a: b, c: [d, e]}',
    '? ',
    '&a ',
    '*a',
    '!t ',
    '<<: ',
    '\\',
  ],
  ...['|', '>', '|\n  a\n\n   b\n', '|-\n  a\n', '|\n', '---', '...', '%', '@', '`', '~', '0', '-5'],
];
const change = fc.record({
  at: fc.nat(),
  piece: fc.constantFrom(...PIECES),
  gone: fc.constantFrom(0, 0, 1, 3),
  atLine: fc.boolean(),
});
const changed = fc
  .tuple(
    fc.constantFrom(...cells),
    fc.array(change, { minLength: 1, maxLength: 3 }),
    fc.constantFrom('\n', '\n', '\r\n'),
  )
  .map(([cell, changes, lineEnd]) =>
    changes
      .reduce((text, { at, piece, gone, atLine }) => {
        const from = at % (text.length + 1);
        const start = atLine ? text.indexOf('\n', from) + 1 : from;
        return text.slice(0, start) + piece + text.slice(start + gone);
      }, cell)
      .replaceAll('\n', lineEnd),
  );

test('cells with random changes', () => {
  let plain = 0;
  fc.assert(
    fc.property(changed, (text) => {
      if (compare(text)) plain++;
    }),
    drawn(4000),
  );
  expect(plain).toBeGreaterThan(runs(4000) / 20);
});
