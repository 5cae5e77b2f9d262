/** Text → cells and back: no byte is lost or moved, and an edit leaves the cells around it as they were. */
import { expect, test } from 'vitest';
import { appendCells, joinCells, replaceCell, resplit, splitCells, type Split } from '../../src/cells/index.ts';
import { editOf, randomOf, startOf } from '../server/random-edits.ts';
import { COUNT, LONGEST, SEED } from '../support/amount.ts';

const ROW = 10;

/** Problems are in the file's order within each code only. */
function byCode({ problems, ...split }: Split) {
  return { ...split, problems: problems.toSorted((one, other) => one.code.localeCompare(other.code)) };
}

test(
  `${ROW * COUNT} edits: split again is split anew, and joined is the text`,
  () => {
    let [edits, replaced] = [0, 0];
    for (let k = 0; k < COUNT; k++) {
      const random = randomOf(SEED * 7_000_003 + k);
      let text = startOf(random);
      let split = splitCells(text);
      for (let row = 0; row < ROW; row++, edits++) {
        const which = `SEED=${SEED}, text ${k}, edit ${row}`;
        const { start, end, text: piece } = editOf(text, random);
        text = text.slice(0, start) + piece + text.slice(end);
        split = resplit(split, text, { start, end, length: piece.length });
        expect(byCode(split), which).toEqual(byCode(splitCells(text)));
        expect(joinCells(split), which).toBe(text);
      }
      const { cells } = split;
      if (cells.length < 3 || split.problems.length > 0) continue;
      const index = 1 + Math.floor(random() * (cells.length - 2));
      const own = splitCells(replaceCell(text, split, index, 'note: in its place\n'));
      expect(own.cells.map(({ readings }) => readings).toSpliced(index, 1), `SEED=${SEED}, text ${k}`).toEqual(
        cells.map(({ readings }) => readings).toSpliced(index, 1),
      );
      expect(
        splitCells(appendCells(text, ['note: behind\n', 'marks: M1\nshots: centre\n'])).cells.length,
        `SEED=${SEED}, text ${k}`,
      ).toBe(cells.length + 2);
      replaced++;
    }
    console.log(`seed ${SEED}: ${edits} edits; in ${replaced} texts a cell replaced and two put behind`);
  },
  LONGEST,
);
