/** The counts by which a run of the simulated machines is judged. */
import { expect, test } from 'vitest';
import { leastCount, mostCount } from '../bench/converge-counts.ts';
import { random } from './random.ts';

test.each([
  [0.995, 296],
  [0.98, 290],
  [0.95, 279],
  [0.9, 261],
  [0.85, 245],
])('of 300 machines at a goal of %f at least %i', (share, count) => {
  expect(leastCount(300, share)).toBe(count);
});

test.each([
  [0.03, 14],
  [0.02, 10],
])('of 300 machines at most %f: at most %i', (share, count) => {
  expect(mostCount(300, share)).toBe(count);
});

test.each([
  [37, 0.9],
  [1000, 0.995],
  [20_000, 0.97],
])('of %i machines at %f: 95 of 100 drawn runs reach it, fewer reach one more', (machines, share) => {
  const draw = random(1);
  const runs = 2_000_000 / machines;
  const least = leastCount(machines, share);
  const reached = Array.from(
    { length: runs },
    () => Array.from({ length: machines }, () => draw.uniform() < share).filter(Boolean).length,
  );
  const often = (count: number) => reached.filter((one) => one >= count).length / runs;
  const deviation = Math.sqrt((0.95 * 0.05) / runs);
  expect(often(least)).toBeGreaterThan(0.95 - 3 * deviation);
  expect(often(least + 1)).toBeLessThan(0.95 + 3 * deviation);
});

test('without machines no goal is missed', () => {
  expect([leastCount(0, 0.98), mostCount(0, 0.02)]).toEqual([0, 0]);
});
