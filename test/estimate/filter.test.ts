/**
 * Estimates of long logs and cells: marks are weighed once on the way to the end, and what was estimated long ago is
 * the same again.
 */
import { describe, expect, test } from 'vitest';
import { runFilter } from '../../src/estimate/filter.ts';
import { fold } from '../../src/estimate/fold.ts';
import { evaluated, LIMITS, MACHINE, reader } from '../support/log.ts';

function entriesOf(...cells: string[]) {
  return reader.read(cells.join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  }).entries;
}

describe('a cell with hundreds of shots of one place', () => {
  const shots = (before: number) =>
    `marks: M1\nshots: [${[...Array.from({ length: before }, () => '1.0 right 0 up'), ...Array.from({ length: 96 }, () => '1.2 right 0 up')].join(', ')}]\n`;
  const distribution = (before: number) =>
    runFilter(fold(entriesOf(MACHINE, LIMITS, shots(before))).segment!).distribution;

  test('a cell with hundreds of shots gives the same estimate as its last 96', () =>
    expect(distribution(304).values).toEqual(distribution(0).values));

  test('a cell with hundreds of shots has the mean of all as its plain reading', () => {
    const [centre] = evaluated(MACHINE, LIMITS, shots(304)).stations[0]!.requirements;
    expect(centre!.value).toBeCloseTo((304 * 1.0 + 96 * 1.2) / 400, 9);
  });
});
