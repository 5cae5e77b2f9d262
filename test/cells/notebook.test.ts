/** One file, two views: what the editor does to a cell's text on the way loses nothing. */
import { describe, expect, test } from 'vitest';
import { fromNotebook, joinNotebook, noteIn, splitCells } from '../../src/cells/index.ts';
import { through } from './through-editor.ts';

describe('every text', () => {
  test('keeps byte order marks at their place, which the editor shows none of', () => {
    const text = 'a: 1\n---\n\ufeff\ufeffb: 1\n---\nnote: |\n  \ufefftext\n';
    const { cells, origin } = through(text);
    expect(cells.map((cell) => cell.text)).toEqual(['a: 1', 'b: 1', 'note: |\n  \ufefftext']);
    expect(fromNotebook({ cells: cells.map((cell) => ({ ...cell, text: `${cell.text}2` })), origin })).toBe(
      'a: 12\n---\n\ufeff\ufeffb: 12\n---\nnote: |\n  \ufefftext2\n',
    );
  });
});

describe('cells put in, taken out and moved', () => {
  const text = '# head\nmachine: m\n---\nmarks: M1\n---\nmarks: M2';
  const book = (from = text) => through(from);
  const cellsOf = (out: string) => splitCells(out).cells.map((cell) => cell.text.replace(/^---\r?\n/, '').trimEnd());

  test('the last goes first: it loses its opener, gets an end, and the old first gets an opener', () => {
    const { cells, origin } = book();
    const out = fromNotebook({ origin, cells: [cells[2]!, cells[0]!, cells[1]!] });
    expect(out).toBe('# head\nmarks: M2\n---\nmachine: m\n---\nmarks: M1\n');
  });

  test('a new cell takes the line end of the file', () => {
    const { cells, origin } = book(text.replaceAll('\n', '\r\n'));
    const out = fromNotebook({ origin, cells: [...cells, { kind: 'cell', text: 'release: in service\nby: me' }] });
    expect(out).toBe(
      '# head\r\nmachine: m\r\n---\r\nmarks: M1\r\n---\r\nmarks: M2\r\n---\r\nrelease: in service\r\nby: me\r\n',
    );
  });

  test('in an empty file, and below a directive', () => {
    expect(fromNotebook({ ...book(''), cells: [{ kind: 'cell', text: 'machine: m' }] })).toBe('machine: m\n');
    expect(fromNotebook({ ...book('%YAML 1.2'), cells: [{ kind: 'cell', text: 'machine: m' }] })).toBe(
      '%YAML 1.2\n---\nmachine: m\n',
    );
    expect(fromNotebook({ ...book('\ufeff'), cells: [{ kind: 'cell', text: 'machine: m' }] })).toBe(
      '\ufeffmachine: m\n',
    );
  });

  test('what is taken out leaves nothing behind', () => {
    const { cells, origin } = book();
    expect(fromNotebook({ origin, cells: [cells[0]!, cells[2]!] })).toBe('# head\nmachine: m\n---\nmarks: M2');
    expect(fromNotebook({ origin, cells: cells.slice(1) })).toBe('# head\nmarks: M1\n---\nmarks: M2');
    expect(fromNotebook({ origin, cells: [] })).toBe('# head\n');
  });

  test('what closes a cell stays true: a tail, a directive', () => {
    const { cells, origin } = book('a: 1\n...\n# c\n%YAML 1.2\n---\nb: 2\n...\n# tail\n');
    const moved = fromNotebook({ origin, cells: [cells[1]!, cells[0]!] });
    expect(cellsOf(moved).length).toBe(2);
    expect(moved.endsWith('a: 1\n...\n# tail\n')).toBe(true);
    const added = fromNotebook({ origin, cells: [...cells, { kind: 'cell', text: 'c: 3' }] });
    expect(splitCells(added).cells.length).toBe(3);
    expect(added.endsWith('c: 3\n...\n# tail\n')).toBe(true);
  });
});

describe('notes', () => {
  test('in the plain block style are text', () => {
    expect(noteIn('note: |\n  One **two**\n\n  three')).toBe('One **two**\n\nthree');
    expect(noteIn('note: |-\n  a\n    b')).toBe('a\n  b');
  });

  test.each([
    'note: text',
    'note: >\n  folded',
    'note: |\n    deep',
    'note: |\n  a\nby: me',
    'by: me\nnote: |\n  a',
    'note: |\n',
    'note: |2\n   a',
    '# why\nnote: |\n  a',
    'marks: M1',
  ])('%j stays a cell like any other', (cell) => expect(noteIn(cell)).toBeUndefined());

  test('unedited keep their bytes; edited, the rest of the file does', () => {
    const text = 'machine: m\n---\nnote: |\n  one\n  two\n---\nmarks: M1\n';
    const { cells, origin } = through(text);
    expect(cells.map(({ kind }) => kind)).toEqual(['cell', 'note', 'cell']);
    expect(
      fromNotebook({ origin, cells: cells.map((cell) => (cell.kind === 'note' ? { ...cell, text: 'one\n2' } : cell)) }),
    ).toBe('machine: m\n---\nnote: |-\n  one\n  2\n---\nmarks: M1\n');
    expect(fromNotebook({ origin, cells: [...cells, { kind: 'note', text: 'new' }] })).toBe(
      `${text}---\nnote: |-\n  new\n`,
    );
  });
});

describe('the file that a notebook forms, for reading', () => {
  const text =
    '%YAML 1.2\n---\n# head\nmachine: m\n...\n# why\n---\nmarks: M1\n---\nnote: |\n  one\n---\nmarks: M2\n...\n# tail\n';

  test('is the one that is saved, with the place of every cell', () => {
    const notebook = through(text);
    const { text: joined, cells } = joinNotebook(notebook);
    expect(joined).toBe(text);
    notebook.cells.forEach(({ kind, text: own }, k) => {
      if (kind === 'cell') expect(joined.slice(cells[k]!.start).startsWith(own)).toBe(true);
    });
    expect(cells.map(({ from }) => joined.slice(from).split('\n')[0])).toEqual(
      splitCells(text).cells.map((cell) => cell.text.split('\n')[0]),
    );
  });

  test('also after cells were edited, put in and taken out', () => {
    const { cells, origin } = through(text);
    const edited = [
      { ...cells[0]!, text: '---\nmachine: n' },
      { kind: 'cell' as const, text: 'event: moved' },
      { ...cells[2]!, text: 'two' },
      ...cells.slice(3),
    ];
    const joined = joinNotebook({ cells: edited, origin });
    expect(joined.text).toBe(fromNotebook({ cells: edited, origin }));
    expect(joined.text.slice(joined.cells[1]!.start)).toMatch(/^event: moved\n/);
  });
});
