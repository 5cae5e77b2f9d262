/** What is split anew after an edit is what a fresh split gives: the same cells, lines, readings and problems. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { resplit, splitCells, type Split } from '../../src/cells/index.ts';

const PIECES = [
  'a: 1\n',
  'b: 2\n',
  '---\n',
  '--- # c\n',
  '---',
  '\n',
  '\r\n',
  '\r',
  '...\n',
  '<<<<<<< x\n',
  '=======\n',
  '>>>>>>> y\n',
  '%YAML 1.1\n',
  '# c\n',
  '-',
  '---x\n',
  'note: |\n  - b\n',
];

const text = fc
  .array(fc.constantFrom(...PIECES.slice(0, 6), ...PIECES.slice(0, 6), ...PIECES), { maxLength: 40 })
  .map((pieces) => pieces.join(''));

function sorted({ problems, ...rest }: Split) {
  return { ...rest, problems: problems.map((problem) => JSON.stringify(problem)).sort() };
}

test('random edits', () => {
  fc.assert(
    fc.property(text, text, fc.nat(), fc.nat(30), (whole, put, at, cut) => {
      const start = at % (whole.length + 1);
      const end = Math.min(whole.length, start + cut);
      const edited = whole.slice(0, start) + put.slice(0, 12) + whole.slice(end);
      const again = resplit(splitCells(whole), edited, { start, end, length: put.slice(0, 12).length });
      expect(sorted(again)).toEqual(sorted(splitCells(edited)));
    }),
    { numRuns: 5000 },
  );
});

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
