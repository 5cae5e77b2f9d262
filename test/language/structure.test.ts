/** The outline, what folds, what a selection grows to, and links. */
import { expect, test } from 'vitest';
import { foldsOf, linksOf, outlineOf, selectionAt } from '../../src/language/index.ts';
import { after, bookOf } from '../support/workbook.ts';

const TEXT = after(
  'marks: M2\ndate: 2026-03-14\nshots:\n  near: 1.5 right 2.0 down\n  far: 6.0 right 5.5 down\n',
  'adjust: M1\nturn: {B: in 1/4, A: out 1/8}\n',
  'care: M9\n',
);

test('a cell is a line: its date, kind, station and verdict', () => {
  expect(outlineOf(bookOf(TEXT)).map(({ name, detail }) => `${name} | ${detail}`)).toEqual([
    'machine wren | ',
    'limits workshop | ',
    'marks M2 | 2026-03-14 · outside',
    'adjust M1 | B in 1/4, A out 1/8',
    'care M9 | cannot be read',
  ]);
});

test('cells fold, and blocks in them', () => {
  const folded = foldsOf(bookOf(TEXT)).map(({ start, end }) => TEXT.slice(start, end));
  expect(folded).toContain('shots:\n  near: 1.5 right 2.0 down\n  far: 6.0 right 5.5 down');
  expect(folded).toContain(
    'marks: M2\ndate: 2026-03-14\nshots:\n  near: 1.5 right 2.0 down\n  far: 6.0 right 5.5 down',
  );
});

test('a selection grows from the value to its pair, its map, its cell and the file', () => {
  const grown = selectionAt(bookOf(TEXT), TEXT.indexOf('5.5 down')).map(({ start, end }) => TEXT.slice(start, end));
  expect(grown[0]).toBe('6.0 right 5.5 down');
  expect(grown[1]).toBe('far: 6.0 right 5.5 down');
  expect(grown.at(-1)).toBe(TEXT);
  grown.slice(1).forEach((outer, k) => expect(outer).toContain(grown[k]));
});

test('`from` leads to its file, quoted or not; nothing leads out of the root', () => {
  const text =
    'machine: a\nfrom: "machines/a.alignbook.yaml"\n---\nmachine: b\nfrom: machines/../b.alignbook.yaml\n---\nmachine: c\nfrom: ../outside.alignbook.yaml\n';
  expect(linksOf(bookOf(text)).map(({ start, end, file }) => [text.slice(start, end), file])).toEqual([
    ['machines/a.alignbook.yaml', 'machines/a.alignbook.yaml'],
    ['machines/../b.alignbook.yaml', 'b.alignbook.yaml'],
  ]);
});
