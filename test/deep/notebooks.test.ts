/** Edits of a notebook: the cells read back are those it shows, and no cell is merged with another or lost. */
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  fromNotebook,
  noteCell,
  noteIn,
  toNotebook,
  type NotebookCell,
  type NotebookText,
} from '../../src/cells/index.ts';
import { COUNT, SEED } from '../support/amount.ts';

const RUNS = 6 * COUNT;
const counts: Record<string, number> = {};
const counted = (what: string) => (counts[what] = (counts[what] ?? 0) + 1);

const EXAMPLES = readdirSync('examples').filter((name) => name.endsWith('.alignbook.yaml'));

const shown = ({ kind, text }: NotebookCell) => ({ kind, text });

describe('a cell inserted above the first', () => {
  test.each(EXAMPLES)('of %s leaves every other cell as it was', (name) => {
    const text = readFileSync(`examples/${name}`, 'utf8');
    const { cells, origin } = toNotebook(text);
    for (const above of [
      { kind: 'cell', text: 'session: new' },
      { kind: 'note', text: 'Hello' },
    ] as const) {
      const back = toNotebook(fromNotebook({ cells: [above, ...cells], origin })).cells;
      expect(back.map(shown)).toEqual([above, ...cells].map(shown));
    }
  });
});

/** The file after an edit of one cell of its notebook. */
function edited(file: string, k: number, text: string): string {
  const { cells, origin } = toNotebook(file);
  return fromNotebook({ cells: cells.with(k, { ...cells[k]!, text }), origin });
}

describe('the line that opens a cell, edited away, is put back', () => {
  const CASES: Readonly<Record<string, { text: string; result: string }>> = {
    'with a comment on it': { text: '--- # why\nmarks: M1\n', result: '---\nmarks: M1\n' },
    'with a comment above it': { text: '...\n# why\n---\nmarks: M1\n', result: '...\n---\nmarks: M1\n' },
    'with a cell on it': { text: '--- {marks: M1}\n', result: '---\nmarks: M1\n' },
  };
  test.each(Object.entries(CASES))('%s', (_, { text, result }) => {
    expect(edited(`machine: m\n${text}`, 1, 'marks: M1')).toBe(`machine: m\n${result}`);
  });

  test('and so is one that closes the cell above', () => {
    expect(edited('machine: m\n...\nmarks: M1\n', 0, 'machine: m')).toBe('machine: m\n---\nmarks: M1\n');
    const commented = 'machine: m\n...\n# why\n---\nmarks: M1\n';
    expect(edited(commented, 0, 'machine: x')).toBe(commented.replace('machine: m', 'machine: x'));
  });

  test('a typed one replaces the hidden one', () => {
    const after = 'machine: m\n--- # why\nmarks: M1\n';
    expect(edited('machine: m\n---\nmarks: M1\n', 1, '--- # why\nmarks: M1')).toBe(after);
  });
});

/** Pieces of a file: lines that may stand between two cells, and what a cell may hold. `@` becomes its own number. */
const BETWEEN = [
  '---\n',
  '---\n',
  '---\n',
  '--- # why\n',
  '--- \n',
  '...\n---\n',
  '...\n',
  '... # end\n# why\n---\n',
  '...\n\n%YAML 1.2\n---\n',
  '...\n...\n---\n',
];
const WITHIN = [
  'k@: 1\n',
  'k@: 1\n',
  '# c@\nk@: 1\n',
  'note: |\n  k@\n\n  more\n',
  'k@: |\n  text\n\n',
  '\n',
  '',
  '# c@\n',
  'k@: "\n',
  '- k@\n',
  'k@: 1\rl: 2\n',
];
const numbered = (text: string, number: number) => text.replaceAll('@', String(number));

const workbook = fc
  .tuple(
    fc.constantFrom('', '', '# head\n', '\n', '%YAML 1.2\n---\n', '\ufeff', '---\n', '--- # why\n', '# head\n...\n'),
    fc.array(fc.tuple(fc.constantFrom(...WITHIN), fc.constantFrom(...BETWEEN)), { maxLength: 6 }),
    fc.constantFrom('\n', '\n', '\r\n'),
    fc.boolean(),
  )
  .map(([head, pieces, end, isOpen]) => {
    const text = head + pieces.map(([within, between], k) => numbered(within, k) + between).join('');
    return (isOpen ? text.replace(/\n$/, '') : text).replaceAll('\n', end);
  });

type Change = (cells: readonly NotebookCell[]) => readonly NotebookCell[];
const texts = fc.constantFrom(
  'n@: 9',
  '# n@\nn@: 9',
  '',
  '# n@',
  '--- # n@\nn@: 9',
  '# n@\n---\nn@: 9',
  'n@: 9\n',
  'n@: 9\n...',
  '%YAML 1.2\n---\nn@: 9',
);
const notes = fc.constantFrom('n@', '# n@\n\ntext', '---\nn@', ' n@', '');

function insert(what: string, at: number, cell: NotebookCell): Change {
  counted(what);
  return (cells) => cells.toSpliced(at % (cells.length + 1), 0, cell);
}

function edit(what: string, at: number, of: (text: string) => string): Change {
  counted(what);
  return (cells) => {
    const k = at % Math.max(1, cells.length);
    return cells.length === 0 ? cells : cells.with(k, { ...cells[k]!, text: of(cells[k]!.text) });
  };
}

/** A cell taken from one place, or copied there, and inserted at another. */
function move(what: 'moved' | 'copied', from: number, to: number): Change {
  counted(what);
  return (cells) => {
    const cell = cells[from % Math.max(1, cells.length)];
    if (!cell) return cells;
    const others = what === 'moved' ? cells.filter((one) => one !== cell) : cells;
    return others.toSpliced(to % (others.length + 1), 0, { ...cell });
  };
}

function remove(at: number): Change {
  counted('removed');
  return (cells) => cells.toSpliced(at % (cells.length + 1), 1);
}

const OPENER = /^(?:[ \t]*(?:#.*)?\n|\.\.\..*\n|%.*\n)*---.*\n?/;

const at = fc.nat();
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.tuple(at, at, texts).map(([k, n, text]) => insert('inserted', k, { kind: 'cell', text: numbered(text, n) })),
  texts.map((text) => insert('inserted first', 0, { kind: 'cell', text: numbered(text, 0) })),
  fc.tuple(at, at, notes).map(([k, n, text]) => insert('notes inserted', k, { kind: 'note', text: numbered(text, n) })),
  at.map(remove),
  fc.tuple(at, at).map(([from, to]) => move('moved', from, to)),
  fc.tuple(at, at).map(([from, to]) => move('copied', from, to)),
  fc.tuple(at, texts).map(([k, text]) => edit('rewritten', k, () => numbered(text, k))),
  at.map((k) => edit('openers deleted', k, (text) => text.replace(OPENER, ''))),
  at.map((k) => edit('ends deleted', k, (text) => text.replace(/\n?\.\.\..*$/, ''))),
  at.map((k) => edit('lines added', k, (text) => text.replace(/(?:\n\.\.\..*)?$/, '\nm: 1$&'))),
);

function changed(text: string, changes: readonly Change[]): NotebookText {
  const { cells, origin } = toNotebook(text);
  return { cells: changes.reduce((now, one) => one(now), cells), origin };
}

/** Lines above the one that opens a first cell are the file's head. */
const IDLE = String.raw`[ \t]*(?:#.*)?\n`;
const CLOSER = String.raw`\.\.\.(?:[ \t].*)?\n`;
const ABOVE_OPENER = new RegExp(`^(?:(?:${IDLE}|${CLOSER}|%.*\n)+(?=---(?:\\s|$))|(?:${IDLE})*${CLOSER}(?:${IDLE})*)`);

/** The text as displayed, without a bare `---` at its beginning, which is hidden, and a `...` at its end. */
function asRead({ kind, text }: NotebookCell, k: number): string {
  const cell = kind === 'note' ? noteCell(text) : k > 0 ? text : text.replace(ABOVE_OPENER, '');
  const bare = cell.replace(/^---[ \t]*(?:\n|$)/, '').replace(/(?:^|\n)\.\.\.(?:[ \t].*)?$/, '');
  return noteIn(bare) ?? bare;
}

const isEdited = ({ kind, text, origin }: NotebookCell) =>
  kind === 'note' || !origin || toNotebook(`a: 1\n...\n${origin.text}`).cells[1]?.text !== text;

describe('random edits of random workbooks', () => {
  const changes = fc.array(change, { minLength: 1, maxLength: 4 });
  const property = (holds: (notebook: NotebookText, out: string) => void) =>
    fc.assert(
      fc.property(workbook, changes, (text, some) => {
        const notebook = changed(text, some);
        holds(notebook, fromNotebook(notebook));
      }),
      { numRuns: RUNS, seed: SEED },
    );

  test('the cells read back are those displayed', () =>
    property(({ cells }, out) => {
      counted('notebooks');
      const { cells: back, origin } = toNotebook(out);
      expect(back.map(asRead)).toEqual(cells.map(asRead));
      expect(fromNotebook({ cells: back, origin })).toBe(out);
    }));

  test('cells that are not edited keep their bytes and order, as do head and tail', () =>
    property((notebook, out) => {
      const { head, tail } = notebook.origin;
      expect(out.startsWith(head)).toBe(true);
      expect(out.endsWith(tail)).toBe(true);
      let from = head.length;
      for (const [k, cell] of notebook.cells.entries()) {
        if (isEdited(cell)) continue;
        counted('cells not edited');
        // A first cell needs no hidden `---`.
        const bytes = k > 0 ? cell.origin!.text : cell.origin!.text.replace(/^---[ \t]*\r?\n/, '');
        const evaluation = out.indexOf(bytes, from);
        expect(evaluation).toBeGreaterThanOrEqual(from);
        from = evaluation + bytes.length;
      }
    }));

  test('counted', () => {
    console.log(
      `seed ${SEED}: ${Object.entries(counts)
        .map(([what, count]) => `${count} ${what}`)
        .join(', ')}`,
    );
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(RUNS / 10);
  });
});
