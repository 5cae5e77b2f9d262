/** Near an even chance both ways are shown with their costs; a place shot twice is not asked for again. */
import { expect, test } from 'vitest';
import { adviceNow, statusOf } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const round = (far: string) =>
  `marks: M2\nshots:\n  - {at: near, mark: 0 right 0.5 up}\n  - {at: 410 mm, mark: 0.5 right 0.5 up}\n  - {at: far, mark: ${far}}\n`;
const EVEN = round('1.5 right 0.5 up');

test('both ways, what they cost, and the cells of each', () => {
  const { sentence, steps, ways } = statusOf(bookOf(after(CENTRED.M1, EVEN)));
  expect(sentence).toBe('M2 is borderline: choose');
  expect(ways?.map(({ brief }) => brief)).toEqual([
    expect.stringMatching(/^shoot M2 again \((over )?\d+ tapes\)$/),
    expect.stringMatching(/^M1 [ABC] (in|out) 1\/\d+.* \((> )?\d+ %\)$/),
  ]);
  expect(ways?.map(({ say }) => say)).toEqual([
    expect.stringMatching(/^Shoot again: \d+ tapes /),
    expect.stringMatching(/^Turn now: M1 .* The probability that M2 is within is then (> )?\d+ %; 2 tapes show it\.$/),
  ]);
  expect(ways?.map(({ cells }) => cells.map((cell) => cell.split('\n')[0]))).toEqual([
    ['marks: M2'],
    [...ways![1]!.cells.slice(0, -1).map(() => 'adjust: M1'), 'marks: M2'],
  ]);
  expect(steps.length).toBeGreaterThan(0);
});

test('far from even there is one way', () => {
  for (const far of ['0.5 right 0.5 up', '5 right 0.5 up'])
    expect(adviceNow(bookOf(after(CENTRED.M1, round(far)))), far).not.toHaveProperty('ways');
});

test('what was shot twice is turned, not shot a third time', () => {
  const { sentence, steps } = statusOf(bookOf(after(CENTRED.M1, EVEN, EVEN, EVEN)));
  expect(sentence).toMatch(/^M1: [ABC] (in|out) /);
  expect(steps[0]!.cell).toMatch(/^adjust: M1/);
});

test('open checks come before any choice', () => {
  const checks = 'checks: make safe\nopen: [eyewear]\n';
  expect(statusOf(bookOf(after('session: spring\n', checks, CENTRED.M1, EVEN))).sentence).toMatch(/^Make safe/);
});
