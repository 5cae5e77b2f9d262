/** Properties of every text, checked on random texts built from relevant pieces. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isScalar, parseAllDocuments, type Document } from 'yaml';
import { appendCells, joinCells, lineIndex, replaceCell, splitCells } from '../../src/cells/index.ts';
import { drawn, runs } from '../support/amount.ts';

const LINES = [
  '',
  ' ',
  '# c',
  '---',
  '--- ',
  '---\t',
  '--- a',
  '--- # c',
  '---x',
  '----',
  '...',
  '... ',
  '... # c',
  '...x',
  'a: 1',
  '  b: "x',
  "'",
  '- [',
  '|',
  '%YAML 1.2',
  '%TAG ! x',
  '<<<<<<< a',
  '||||||| b',
  '=======',
  '>>>>>>> c',
  'note: |',
  '  text',
  '\u2028',
  '\ud800',
  '🔧',
];
const line = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...LINES) },
  { weight: 1, arbitrary: fc.string({ maxLength: 8 }) },
);
const end = fc.constantFrom('\n', '\n', '\n', '\r\n', '\r\n', '\r', '');
const anyText = fc
  .tuple(fc.constantFrom('', '', '', '\ufeff'), fc.array(fc.tuple(line, end), { maxLength: 20 }))
  .map(([mark, lines]) => mark + lines.flat().join(''));

const lineFeeds = (text: string) => [...text.matchAll(/\r?\n/g)].map(({ index }) => index);

describe('every text', () => {
  test('is joined again byte for byte, from cells that follow one another', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const split = splitCells(text);
        expect(joinCells(split)).toBe(text);
        let at = split.head.length;
        for (const cell of split.cells) {
          expect([cell.start, cell.line]).toEqual([at, lineIndex(text).positionAt(at).line]);
          expect(cell.text).not.toBe('');
          at += cell.text.length;
        }
        for (const { start, end: stop } of split.problems)
          expect(0 <= start && start <= stop && stop <= text.length).toBe(true);
      }),
      drawn(400),
    );
  });

  test('is read at its own offsets: a reading blanks characters and moves none', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        for (const cell of splitCells(text).cells) {
          expect(cell.readings.length === 1 || cell.readings.length === 2).toBe(true);
          for (const reading of cell.readings) {
            expect(reading).toHaveLength(cell.text.length);
            expect(lineFeeds(reading)).toEqual(lineFeeds(cell.text));
            const changed = reading.split('').filter((character, i) => character !== cell.text[i]);
            expect(changed.filter((character) => character !== ' ' && character !== '#')).toEqual([]);
          }
        }
      }),
      drawn(400),
    );
  });

  test('loses nothing: a line that is no marker, directive or base is in a reading, the head or the tail', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('---', '...', '<<<<<<< a', '=======', '>>>>>>> c', '#'), { maxLength: 12 }),
        (markers) => {
          const text = markers.map((marker, i) => `${marker}\nk${i}: ${i}\n`).join('');
          const split = splitCells(text);
          const read = [split.head, ...split.cells.flatMap((cell) => cell.readings), split.tail].join('\n');
          for (let i = 0; i < markers.length; i++) expect(read).toContain(`k${i}: ${i}\n`);
        },
      ),
      drawn(300),
    );
  });

  test('keeps every other byte when a cell is replaced', () => {
    fc.assert(
      fc.property(anyText, fc.nat(), line, (text, n, body) => {
        const split = splitCells(text);
        if (split.cells.length === 0) return;
        const index = n % split.cells.length;
        const cell = split.cells[index]!;
        const replaced = replaceCell(text, split, index, body);
        const behind = text.slice(cell.start + cell.text.length);
        expect(replaced.slice(0, cell.start)).toBe(text.slice(0, cell.start));
        expect(replaced.endsWith(behind)).toBe(true);
        expect(replaced.slice(cell.start, replaced.length - behind.length)).toContain(body);
        expect(replaceCell(text, split, index, cell.text)).toBe(text);
      }),
      drawn(400),
    );
  });

  test('grows by as many cells as are appended, and changes nowhere else', () => {
    fc.assert(
      fc.property(
        anyText,
        fc.array(fc.constantFrom('marks: M2\n', '---\nmarks: M2', 'a: 1'), { maxLength: 3 }),
        (text, added) => {
          const grown = appendCells(text, added);
          expect(grown.startsWith(text)).toBe(true);
          const unfinished = text.endsWith('\r') || text.includes('<<<<<<<');
          if (!unfinished) expect(splitCells(grown).cells).toHaveLength(splitCells(text).cells.length + added.length);
        },
      ),
      drawn(400),
    );
  });
});

describe('yaml’s own documents', () => {
  const value = fc.constantFrom(
    'a: 1',
    'a: {b: 2, c: [d, e]}',
    '- a\n- b',
    'note: |\n  x\n  ---\n\n  y',
    'note: >-\n  x\n\n  y',
    'a: "x\n  y"',
    "a: 'it''s'",
    'plain\ntext',
    '"quoted"',
    '[a,\n b]',
    '# only a comment',
    '',
    '&x a: 1\nb: *x',
    'a:\n  - b\n  -\n   c: d',
    '? a\n: b',
    'a: ---',
    'a: b---\n ---c',
    '|\n text\n',
    '---x: 1',
    'a: ...',
    '% : 1',
    'a: "\n\n---x"',
  );
  const separator = fc.constantFrom(
    '---\n',
    '--- ',
    '---\t# c\n',
    '...\n---\n',
    '... # c\n# c\n---\n',
    '\n---\n\n',
    '...\n%YAML 1.2\n---\n',
    '# c\n---\n',
    '...\n',
  );
  const stream = fc
    .tuple(
      fc.constantFrom('', '\ufeff', '# head\n', '%YAML 1.2\n---\n', '---\n'),
      fc.array(fc.tuple(value, separator), { maxLength: 5 }),
      value,
      fc.boolean(),
      fc.boolean(),
    )
    .map(([head, pairs, last, newline, crlf]) => {
      const text = head + pairs.map(([body, sign]) => `${body}\n${sign}`).join('') + last + (newline ? '\n' : '');
      return crlf ? text.replaceAll('\n', '\r\n') : text;
    });

  const documents = (text: string): Document[] => {
    const parsed = parseAllDocuments(text);
    return Array.isArray(parsed) ? [...parsed] : [];
  };
  const faulty = ({ errors, warnings }: Document) => errors.length + warnings.length > 0;
  /** A `...` that closes nothing makes a document for the parser, but not in YAML. */
  const isMade = ({ contents, directives }: Document) =>
    directives?.docStart !== true && isScalar(contents) && contents.source === '';

  test('are the cells of every error-free stream, with the same values', () => {
    let compared = 0;
    fc.assert(
      fc.property(stream, (text) => {
        const expected = documents(text).filter((document) => !isMade(document));
        if (documents(text).some(faulty)) return;
        compared++;
        const read = splitCells(text).cells.map((cell) => documents(cell.readings[0]!));
        expect(read.map((parts) => parts.map((part) => part.toJS() as unknown)).map(([one = null]) => one)).toEqual(
          expected.map((one) => one.toJS() as unknown),
        );
        expect(read.every((parts) => parts.length <= 1 && !parts.some(faulty))).toBe(true);
      }),
      drawn(400),
    );
    expect(compared).toBeGreaterThan(runs(100));
  });
});
