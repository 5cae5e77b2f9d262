/** What is split anew after an edit is what a fresh split gives: the same cells, lines, readings and problems. */
import { expect, test } from 'vitest';
import { resplit, splitCells } from '../../src/cells/index.ts';

test('cells that an edit does not touch keep their readings', () => {
  const whole = 'a: 1\n---\nb: 2\n---\nc: 3 # long\n---\nd: 4\n---\ne: 5\n';
  const at = whole.indexOf('3');
  const before = splitCells(whole);
  const after = resplit(before, whole.replace('3', '33'), { start: at, end: at + 1, length: 2 });
  expect(after.cells.map(({ readings }, i) => readings === before.cells[i]!.readings)).toEqual([
    true,
    true,
    false,
    true,
    true,
  ]);
});
