/**
 * Hostile files: each gives few findings, and its cells are joined again unchanged. `npm run bench` measures the time.
 */
import { describe, expect, test } from 'vitest';
import { joinCells, splitCells } from '../../src/cells/index.ts';
import { HOSTILE_LINES } from '../cells/hostile.ts';
import { HOSTILE_CELLS, repeated } from '../workbook/hostile.ts';
import { read } from '../workbook/sample.ts';

test.each(HOSTILE_CELLS)('%s', (_, text, expected) => {
  const { codes } = read(text);
  expect([...new Set(codes)].join(' ')).toMatch(expected);
});

describe('bounds', () => {
  test.each(HOSTILE_LINES)('a file full of %j gives at most a hundred findings of a code', (piece) => {
    const text = repeated(piece, 1_000_000);
    const split = splitCells(text);
    expect(joinCells(split) === text).toBe(true);
    expect(split.problems.filter(({ code }) => code === split.problems[0]!.code).length).toBeLessThanOrEqual(100);
  });
});
