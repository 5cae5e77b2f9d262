/** One file, two views: the editor's conversion of a cell's text loses nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDocument } from 'yaml';
import { fromNotebook, noteCell, splitCells, type NotebookCell } from '../../src/cells/index.ts';
import { through } from '../cells/through-editor.ts';
import { drawn, runs, SEED } from '../support/amount.ts';

const RUNS = runs(1500);
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

describe('every text', () => {
  test('is unchanged byte for byte', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        texts++;
        expect(fromNotebook(through(text))).toBe(text);
      }),
      drawn(1500),
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
      drawn(1500),
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
        // The only difference is the added text, unless the line ended the cell or was above the line that opens it.
        const [above, from] = [lines.slice(0, at), lines.slice(at)];
        const isAbove =
          above.every((own) => /^(?:[ \t]*(?:#.*)?|(?:%|[<|=>]{7}|---|\.\.\.).*)$/.test(own)) &&
          from.some((own) => /^(?:---|\.\.\.)/.test(own));
        if (/@@/.test(text) || /^(?:---|\.\.\.)/.test(lines[at]!) || isAbove) return;
        expect(after.replace('@@', '')).toBe(text);
      }),
      drawn(1500),
    );
  });

  test('counted', () => {
    console.log(`${texts} texts, ${edits} edits, seed ${SEED}`);
    expect(texts).toBeGreaterThanOrEqual(RUNS);
    expect(edits).toBeGreaterThan(RUNS / 3);
  });
});

describe('cells inserted, removed and moved', () => {
  const cellsOf = (out: string) => splitCells(out).cells.map((cell) => cell.text.replace(/^---\r?\n/, '').trimEnd());

  test('random moves keep every cell and add none', () => {
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
      drawn(300),
    );
  });
});

describe('notes', () => {
  test('that are edited are read back as written', () => {
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
      drawn(1500),
    );
  });
});
