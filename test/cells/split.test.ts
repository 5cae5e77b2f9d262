/** Text → cells. To add a case copy a line: the text, its cells' first lines' places and the findings. */
import { describe, expect, test } from 'vitest';
import { joinCells, splitCells } from '../../src/cells/index.ts';

interface Case {
  readonly text: string;
  readonly cells: readonly string[];
  readonly head?: string;
  readonly tail?: string;
  /** `code@offset` */
  readonly problems?: readonly string[];
}

const CASES: Readonly<Record<string, Case>> = {
  'an empty file': { text: '', cells: [] },
  'comments only': { text: '# a\n\n# b', cells: [], head: '# a\n\n# b' },
  'one cell without a marker': { text: 'note: a\n', cells: ['note: a\n'] },
  'two cells': { text: 'a: 1\n---\nb: 2\n', cells: ['a: 1\n', '---\nb: 2\n'] },
  'no final newline': { text: 'a: 1\n---\nb: 2', cells: ['a: 1\n', '---\nb: 2'] },
  CRLF: { text: 'a: 1\r\n---\r\nb: 2\r\n', cells: ['a: 1\r\n', '---\r\nb: 2\r\n'] },
  'mixed line ends': {
    text: 'a: 1\r\n---\nb: 2\r\n---\r\nc: 3\n',
    cells: ['a: 1\r\n', '---\nb: 2\r\n', '---\r\nc: 3\n'],
  },
  'a BOM is in the head': { text: '\ufeffa: 1\n', cells: ['a: 1\n'], head: '\ufeff' },
  'a BOM before a marker': { text: '\ufeff---\na: 1\n', cells: ['---\na: 1\n'], head: '\ufeff' },
  'a head': { text: '# schema\n\na: 1\n', cells: ['a: 1\n'], head: '# schema\n\n' },
  'a head before a marker': { text: '# schema\n---\na: 1\n', cells: ['---\na: 1\n'], head: '# schema\n' },
  'a comment between cells is the earlier one’s': {
    text: 'a: 1\n# b\n---\nb: 2\n',
    cells: ['a: 1\n# b\n', '---\nb: 2\n'],
  },
  'a marker before a space': { text: 'a: 1\n--- \nb: 2\n', cells: ['a: 1\n', '--- \nb: 2\n'] },
  'a marker before a tab': { text: 'a: 1\n---\t# b\nb: 2\n', cells: ['a: 1\n', '---\t# b\nb: 2\n'] },
  'content behind a marker': { text: 'a: 1\n--- {b: 2}\n', cells: ['a: 1\n', '--- {b: 2}\n'] },
  'a last marker without a line end': { text: 'a: 1\n---', cells: ['a: 1\n', '---'], problems: ['cells.empty@5'] },
  '---foo is no marker': { text: 'a: |\n---foo\n----\n', cells: ['a: |\n---foo\n----\n'] },
  'an indented --- is no marker': { text: 'a: |\n  ---\n', cells: ['a: |\n  ---\n'] },
  'an unclosed quote stays in its cell': { text: 'a: "x\n---\nb: 2\n', cells: ['a: "x\n', '---\nb: 2\n'] },
  'an empty cell': {
    text: 'a: 1\n---\n---\nb: 2\n',
    cells: ['a: 1\n', '---\n', '---\nb: 2\n'],
    problems: ['cells.empty@5'],
  },
  'a cell of comments is empty': { text: '---\n # a\n', cells: ['---\n # a\n'], problems: ['cells.empty@0'] },
  'only blank lines': { text: '\n  \n\t\n', cells: [], head: '\n  \n\t\n' },
  '... closes a cell': { text: 'a: 1\n...\n# end\n', cells: ['a: 1\n...\n'], tail: '# end\n' },
  'a comment behind ... is the next one’s': {
    text: 'a: 1\n...\n# b\n---\nb: 2\n',
    cells: ['a: 1\n...\n', '# b\n---\nb: 2\n'],
  },
  'text behind ... opens a cell': {
    text: 'a: 1\n...\nb: 2\n',
    cells: ['a: 1\n...\n', 'b: 2\n'],
    problems: ['cells.afterEnd@9'],
  },
  'text on the line of ...': { text: 'a: 1\n... b\n', cells: ['a: 1\n... b\n'], problems: ['cells.afterEnd@8'] },
  'a comment on the line of ...': { text: 'a: 1\n... # b\n', cells: ['a: 1\n... # b\n'] },
  '... that closes nothing': { text: '...\na: 1\n...\n...\n', cells: ['a: 1\n...\n'], head: '...\n', tail: '...\n' },
  '....foo and ...x are no markers': { text: 'a: |\n...x\n....\n', cells: ['a: |\n...x\n....\n'] },
  'the directive that may stand': { text: '%YAML 1.2\n---\na: 1\n', cells: ['---\na: 1\n'], head: '%YAML 1.2\n' },
  'the same with a comment': { text: '%YAML 1.2 # x\n---\na: 1\n', cells: ['---\na: 1\n'], head: '%YAML 1.2 # x\n' },
  'another version': {
    text: '%YAML 1.1\n---\na: 1\n',
    cells: ['---\na: 1\n'],
    head: '%YAML 1.1\n',
    problems: ['cells.directive@0'],
  },
  'a tag directive': {
    text: 'a: 1\n...\n%TAG ! x\n---\nb: 2\n',
    cells: ['a: 1\n...\n', '%TAG ! x\n---\nb: 2\n'],
    problems: ['cells.directive@9'],
  },
  'a directive in the tail': {
    text: 'a: 1\n...\n%FOO\n',
    cells: ['a: 1\n...\n'],
    tail: '%FOO\n',
    problems: ['cells.directive@9'],
  },
  '% within a cell is the parser’s affair': { text: 'a: |\n%x\n', cells: ['a: |\n%x\n'] },
  'a lone CR': { text: 'a: 1\rb: 2\n', cells: ['a: 1\rb: 2\n'], problems: ['cells.loneReturn@4'] },
  'a lone CR does not end a marker': {
    text: 'a: 1\n---\rb: 2\n',
    cells: ['a: 1\n---\rb: 2\n'],
    problems: ['cells.loneReturn@8'],
  },
  'a CR at the end is alone': { text: 'a: 1\r', cells: ['a: 1\r'], problems: ['cells.loneReturn@4'] },
};

test.each(Object.entries(CASES))('%s', (_, { text, cells, head = '', tail = '', problems = [] }) => {
  const split = splitCells(text);
  expect(split.cells.map((cell) => cell.text)).toEqual(cells);
  expect([split.head, split.tail]).toEqual([head, tail]);
  expect(split.problems.map(({ code, start }) => `${code}@${start}`)).toEqual(problems);
  expect(joinCells(split)).toBe(text);
});

describe('readings', () => {
  const READ: readonly (readonly [text: string, ...readings: string[]])[] = [
    ['a: 1\n', 'a: 1\n'],
    ['---\na: 1\n', '   \na: 1\n'],
    ['--- {a: 1} # b\n', '    {a: 1} # b\n'],
    ['---\r\na: 1\r\n...\r\n', '   \r\na: 1\r\n#  \r\n'],
    ['---\na: 1\n... # b\n', '   \na: 1\n#      \n'],
    ['a: 1\n...\n%YAML 1.2\n---\nb: 2\n', 'a: 1\n#  \n', '         \n   \nb: 2\n'],
    ['a: 1\n...\n\n---\nb: 2\n', 'a: 1\n#  \n', '\n   \nb: 2\n'],
    ['a: |\n  x\n...\n', 'a: |\n  x\n#  \n'],
    ['a: 1\n...\n...\nb: 2\n', 'a: 1\n#  \n', '   \nb: 2\n'],
  ];
  test.each(READ)('%j', (text, ...readings) => {
    expect(splitCells(text).cells.flatMap((cell) => cell.readings)).toEqual(readings);
  });
});

describe('bounds', () => {
  test('a cell of more than a million characters is kept and not parsed; the others are', () => {
    const long = `a: ${'x'.repeat(1_000_000)}\n`;
    const split = splitCells(`${long}---\nb: 2\n`);
    expect(split.cells.map(({ readings }) => readings.length)).toEqual([0, 1]);
    expect(split.problems.map(({ code }) => code)).toEqual(['cells.limit']);
  });

  test.each([
    ['characters', `a: 1\n${'#'.repeat(32 * 1024 * 1024)}`],
    ['marker lines', '---\n'.repeat(250_000)],
  ])('a file of too many %s is kept and not parsed', (what, text) => {
    const split = splitCells(text);
    expect(split.cells).toEqual([]);
    expect(split.problems).toHaveLength(1);
    expect(split.problems[0]).toMatchObject({
      code: 'cells.limit',
      facts: { what: expect.stringContaining(` ${what}`) },
    });
    expect(joinCells(split) === text).toBe(true);
  });
});
