/** The outline, what folds, what a selection grows to, and links. */
import { expect, test } from 'vitest';
import { foldsOf, linksOf, nestedOutline, outlineOf, selectionAt, type OutlineNode } from '../../src/language/index.ts';
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

/** One line a node, indented; its text from its start is that of its first cell. */
const outlined = (nodes: readonly OutlineNode[], indent = ''): string[] =>
  nodes.flatMap(({ name, detail, children }) => [
    `${indent}${name}${detail === '' ? '' : ` | ${detail}`}`,
    ...outlined(children, `${indent}  `),
  ]);

test('the outline is by visits: as found, then each move with the marks that followed', () => {
  const text = after(
    'session: spring service\ndate: 2026-03-07\n',
    'checks: make safe\ndone: [eyewear]\n',
    'marks: M1\nshots: centre\n',
    'note: a word between\n',
    'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n',
    'adjust: M1\nlock: found loose\n',
    'adjust: M1\nturn: {B: in 1/4}\n',
    'adjust: M1\nturn: {A: out 1/8}\n',
    'marks: M2\nshots: {near: 1 right 2 down, far: 1 right 5 down}\n',
    'adjust: tube\nshift: 1 mm up\n',
    'release: withdrawn\n',
    'note: after it\n',
    'marks: M1\nshots: 0 right 1 up\n',
  );
  const book = bookOf(text);
  const lines = outlined(nestedOutline(book));
  expect(lines).toEqual([
    'machine wren',
    'limits workshop',
    'spring service | 2026-03-07, withdrawn, stale',
    '  checks make safe',
    '  as found | M1, M2',
    '    marks M1 | within',
    '    note',
    '    marks M2 | outside',
    '  adjust M1 | found loose',
    '  M1: B in 1/4, A out 1/8 | M2',
    '    adjust M1 | B in 1/4',
    '    adjust M1 | A out 1/8',
    '    marks M2 | outside',
    '  tube: 1 mm up',
    '    adjust tube | 1 mm up',
    '  release withdrawn',
    'note',
    'visit 2 | not released, stale',
    '  as found | M1',
    '    marks M1 | within',
  ]);
  // Every cell is there once, as in the flat outline.
  const leaves = (nodes: readonly OutlineNode[]): OutlineNode[] =>
    nodes.flatMap((node) => (node.children.length > 0 ? leaves(node.children) : [node]));
  const flat = outlineOf(book).filter(({ kind }) => kind !== 'session');
  expect(leaves(nestedOutline(book)).map(({ start, name }) => [start, name])).toEqual(
    flat.map(({ start, name }) => [start, name]),
  );
});

test('every line lies in the one around it, and none overlaps its neighbour', () => {
  const check = (nodes: readonly OutlineNode[], start: number, end: number) =>
    nodes.forEach((node, k) => {
      expect(node.start).toBeGreaterThanOrEqual(k === 0 ? start : nodes[k - 1]!.end);
      expect(node.end).toBeLessThanOrEqual(end);
      expect(node.from).toBeGreaterThanOrEqual(node.start);
      expect(node.to).toBeLessThanOrEqual(node.end);
      check(node.children, node.start, node.end);
    });
  const sessions = after(
    'session: one\n',
    'session: two\n',
    'adjust: M1\nturn: {B: in 1/4}\n',
    'marks: M1\nshots: centre\n',
  );
  for (const text of [TEXT, sessions, '', 'session:\n']) check(nestedOutline(bookOf(text)), 0, text.length);
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
