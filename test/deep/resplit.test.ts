/** Splitting again after an edit gives the same as a fresh split: the same cells, lines, readings and problems. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { resplit, splitCells, type Split } from '../../src/cells/index.ts';
import { drawn } from '../support/amount.ts';

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
    drawn(5000),
  );
});
