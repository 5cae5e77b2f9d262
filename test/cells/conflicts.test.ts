/**
 * Version-control conflicts: one finding each, both sides read, nothing lost. A case is a text without its line feeds,
 * and for each cell its readings, `ours // theirs`, without blanks.
 */
import { expect, test } from 'vitest';
import { joinCells, splitCells } from '../../src/cells/index.ts';

const CASES: Readonly<
  Record<string, { lines: string; cells: readonly string[]; findings?: number; missing?: string }>
> = {
  'within a cell': {
    lines: 'p|<<<<<<< a|o|=======|t|>>>>>>> b|s|---|n',
    cells: ['p|o|s // p|t|s', 'n'],
  },
  'a deleted side': { lines: 'p|<<<<<<< a|=======|t|>>>>>>> b|s', cells: ['p|s // p|t|s'] },
  'the other side deleted': { lines: 'p|<<<<<<< a|o|=======|>>>>>>> b|s', cells: ['p|o|s // p|s'] },
  'the base is not read': { lines: 'p|<<<<<<< a|o|||||||| c|x|---|y|=======|t|>>>>>>> b', cells: ['p|o // p|t'] },
  'whole cells on both sides': {
    lines: 'p|<<<<<<< a|---|o|=======|---|t|>>>>>>> b|---|n',
    cells: ['p', 'o', 't', 'n'],
  },
  'two cells against one': {
    lines: '---|<<<<<<< a|o|---|o2|=======|t|>>>>>>> b|s',
    cells: ['o', 'o2|s // t|s'],
  },
  'one cell against two': {
    lines: 'p|<<<<<<< a|o|=======|t|---|t2|>>>>>>> b|s',
    cells: ['p|o // p|t', 't2|s'],
  },
  'two conflicts in a cell': {
    lines: '<<<<<<< a|o|=======|t|>>>>>>> b|p|<<<<<<< a|o2|=======|t2|>>>>>>> b',
    cells: ['o|p|o2 // t|p|t2'],
    findings: 2,
  },
  'the first cell': { lines: '<<<<<<< a|---|o|=======|---|t|>>>>>>> b', cells: ['o', 't'] },
  'comments of the head': { lines: '<<<<<<< a|# o|=======|# t|>>>>>>> b|p', cells: ['p'] },
  'comments of a cell give one reading': { lines: 'p|<<<<<<< a|# o|=======|# t|>>>>>>> b|s', cells: ['p|# o|s'] },
  'no end': { lines: 'p|<<<<<<< a|o|---|n', cells: ['p|o', 'n'], missing: '======= >>>>>>>' },
  'no middle': { lines: 'p|<<<<<<< a|o|>>>>>>> b|s', cells: ['p|o|s'], missing: '=======' },
  'no beginning': { lines: 'p|=======|t|>>>>>>> b|s', cells: ['p|t|s'], missing: '<<<<<<<' },
  'an end alone': { lines: 'p|>>>>>>> b|s', cells: ['p|s'], missing: '<<<<<<< =======' },
  'begun twice': {
    lines: '<<<<<<< a|x|<<<<<<< a|o|=======|t|>>>>>>> b',
    cells: ['x|o // x|t'],
    findings: 2,
    missing: '======= >>>>>>>',
  },
  'more signs are no marker': {
    lines: 'p|  x: |  <<<<<<< a|<<<<<<<< a|========',
    cells: ['p|  x: |  <<<<<<< a|<<<<<<<< a|========'],
    findings: 0,
  },
};

/** `|` stands for a line feed, but not within a marker of the base. */
const text = (lines: string) => `${lines.replaceAll('||||||||', '\n|||||||').replace(/(?<!\|)\|(?!\|)/g, '\n')}\n`;

const written = (reading: string) =>
  reading
    .split('\n')
    .filter((line) => line.trim() !== '')
    .join('|');

test.each(Object.entries(CASES))('%s', (_, { lines, cells, findings = 1, missing }) => {
  for (const end of ['\n', '\r\n']) {
    const file = text(lines).replaceAll('\n', end);
    const split = splitCells(file);
    expect(split.cells.map((cell) => cell.readings.map((r) => written(r.replaceAll('\r', ''))).join(' // '))).toEqual(
      cells,
    );
    expect(split.problems.map(({ code }) => code)).toEqual(Array(findings).fill('cells.conflict'));
    expect(split.problems[0]?.facts['missing']).toBe(missing);
    expect(joinCells(split)).toBe(file);
  }
});

test('a finding is at the first marker and names both sides', () => {
  const { problems } = splitCells('p: 1\n<<<<<<< HEAD\na: 1\n=======\na: 2\n>>>>>>> their branch\n');
  expect(problems).toEqual([
    { code: 'cells.conflict', start: 5, end: 17, facts: { ours: 'HEAD', theirs: 'their branch' } },
  ]);
});
