/** One file, two views: what the editor does to a cell's text on the way loses nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDocument } from 'yaml';
import {
  fromNotebook,
  noteCell,
  noteIn,
  splitCells,
  toNotebook,
  type NotebookCell,
  type NotebookText,
} from '../../src/cells/index.ts';

const RUNS = Number(process.env['RUNS'] ?? 1500);
const SEED = Number(process.env['SEED'] ?? 1);
let texts = 0;
let edits = 0;

const LINES = [
  '',
  ' ',
  '# c',
  '---',
  '--- ',
  '--- a',
  '--- # c',
  '---x',
  '...',
  '... # c',
  'a: 1',
  '  b: "x',
  '- [',
  '|',
  '%YAML 1.2',
  '%TAG ! x',
  '<<<<<<< a',
  '||||||| b',
  '=======',
  '>>>>>>> c',
  'note: |',
  'note: |-',
  '  text',
  '   more',
  '\u2028',
  '\ud800',
  '🔧',
  '\ufeff',
  '\ufeff\ufeffb: 1',
  'note: |\n  \ufefftext',
];
const line = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...LINES) },
  { weight: 1, arbitrary: fc.string({ maxLength: 8 }) },
);
const end = fc.constantFrom('\n', '\n', '\n', '\r\n', '\r\n', '\r', '');
const anyText = fc
  .tuple(fc.constantFrom('', '', '', '\ufeff'), fc.array(fc.tuple(line, end), { maxLength: 20 }))
  .map(([mark, lines]) => mark + lines.flat().join(''));

/** What the editor's text model does to a cell: one line end for all, that of the most lines; a mark at the beginning is gone. */
function normalised(cell: NotebookCell): NotebookCell {
  const text = cell.text.replace(/^\ufeff/, '');
  const [feeds, all] = [text.match(/\r\n/g)?.length ?? 0, text.match(/\r\n|\r|\n/g)?.length ?? 0];
  return { ...cell, text: text.replace(/\r\n|\r|\n/g, feeds > all / 2 ? '\r\n' : '\n') };
}

function through(text: string): NotebookText {
  const { cells, origin } = toNotebook(text);
  // Metadata go through JSON.
  return JSON.parse(JSON.stringify({ cells: cells.map(normalised), origin })) as NotebookText;
}

describe('every text', () => {
  test('comes out as it went in, byte for byte', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        texts++;
        expect(fromNotebook(through(text))).toBe(text);
      }),
      { numRuns: RUNS, seed: SEED },
    );
  });

  test('with one cell edited keeps every byte of the others, and the cells that it had', () => {
    fc.assert(
      fc.property(
        anyText,
        fc.nat(),
        fc.array(fc.constantFrom('x: 9', '  y', '# new', ''), { minLength: 1, maxLength: 4 }),
        (text, pick, lines) => {
          const { cells, head, tail } = splitCells(text);
          const { cells: shown, origin } = through(text);
          const plain = shown.map((cell, k) => [cell, k] as const).filter(([{ kind }]) => kind === 'cell');
          if (plain.length === 0) return;
          const k = plain[pick % plain.length]![1];
          edits++;
          const after = fromNotebook({
            cells: shown.map((cell, i) => (i === k ? { ...cell, text: lines.join('\n') } : cell)),
            origin,
          });
          const [before, behind] = [
            head +
              cells
                .slice(0, k)
                .map((cell) => cell.text)
                .join(''),
            cells
              .slice(k + 1)
              .map((cell) => cell.text)
              .join('') + tail,
          ];
          expect(after.startsWith(before)).toBe(true);
          expect(after.endsWith(behind)).toBe(true);
          expect(after.length).toBeGreaterThanOrEqual(before.length + behind.length);
        },
      ),
      { numRuns: RUNS, seed: SEED },
    );
  });

  test('with one line edited keeps every byte of the other lines of its cell', () => {
    fc.assert(
      fc.property(anyText, fc.nat(), fc.nat(), (text, pick, which) => {
        const { cells: shown, origin } = through(text);
        const plain = shown
          .map((cell, k) => [cell, k] as const)
          .filter(([{ kind, text: own }]) => kind === 'cell' && own !== '');
        if (plain.length === 0) return;
        const [cell, k] = plain[pick % plain.length]!;
        const lines = cell.text.split(/\r?\n/);
        const at = which % lines.length;
        const edited = lines.map((own, i) => (i === at ? `${own}@@` : own)).join('\n');
        edits++;
        const after = fromNotebook({
          cells: shown.map((one, i) => (i === k ? { ...one, text: edited } : one)),
          origin,
        });
        // What is added is all that differs, where the line neither ended the cell nor stood above what opens it.
        const [above, from] = [lines.slice(0, at), lines.slice(at)];
        const isAbove =
          above.every((own) => /^(?:[ \t]*(?:#.*)?|(?:%|[<|=>]{7}|---|\.\.\.).*)$/.test(own)) &&
          from.some((own) => /^(?:---|\.\.\.)/.test(own));
        if (/@@/.test(text) || /^(?:---|\.\.\.)/.test(lines[at]!) || isAbove) return;
        expect(after.replace('@@', '')).toBe(text);
      }),
      { numRuns: RUNS, seed: SEED },
    );
  });

  test('keeps byte order marks at their place, which the editor shows none of', () => {
    const text = 'a: 1\n---\n\ufeff\ufeffb: 1\n---\nnote: |\n  \ufefftext\n';
    const { cells, origin } = through(text);
    expect(cells.map((cell) => cell.text)).toEqual(['a: 1', 'b: 1', 'note: |\n  \ufefftext']);
    expect(fromNotebook({ cells: cells.map((cell) => ({ ...cell, text: `${cell.text}2` })), origin })).toBe(
      'a: 12\n---\n\ufeff\ufeffb: 12\n---\nnote: |\n  \ufefftext2\n',
    );
  });

  test('counted', () => {
    console.log(`${texts} texts, ${edits} edits, seed ${SEED}`);
    expect(texts).toBeGreaterThanOrEqual(RUNS);
    expect(edits).toBeGreaterThan(RUNS / 3);
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

  test('random moves keep every cell, and nothing is read that was not there', () => {
    const pieces = fc.array(
      fc.constantFrom('a: 1', 'marks: M1\nshots: centre', '# why\nb: 2', 'note: |\n  some text'),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(
        pieces,
        fc.constantFrom('\n', '\r\n'),
        fc.boolean(),
        fc.array(fc.nat(), { maxLength: 6 }),
        (cells, eol, isOpen, order) => {
          const from = cells.join('\n---\n').replaceAll('\n', eol) + (isOpen ? '' : eol);
          const { cells: shown, origin } = through(from);
          const moved = order.reduce<readonly NotebookCell[]>(
            (so, pick) => [...so.slice(pick % so.length), ...so.slice(0, pick % so.length)],
            shown,
          );
          expect(cellsOf(fromNotebook({ origin, cells: moved })).toSorted()).toEqual(cellsOf(from).toSorted());
        },
      ),
      { numRuns: 300, seed: SEED },
    );
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

  test('that are edited are read again as they were written', () => {
    const anyNote = fc
      .array(
        fc.oneof(
          fc.constantFrom('', ' ', '\t', '# head', '---', '...', '- a', 'a: b', '  deep', '"', '\u2028', '\u0001'),
          fc.string({ maxLength: 6, unit: 'binary' }),
        ),
        { minLength: 1, maxLength: 6 },
      )
      .map((lines) => lines.join('\n').replace(/\r/g, ''));
    fc.assert(
      fc.property(anyNote, (note) => {
        const document = parseDocument(noteCell(note));
        expect(document.errors).toEqual([]);
        expect(document.toJS()).toEqual({ note });
      }),
      { numRuns: RUNS, seed: SEED },
    );
  });

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
