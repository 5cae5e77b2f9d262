/**
 * Every direction of every layout: the product against an independent 3-D library, and the drawing for the handbook.
 *
 * For each layout, at each tape: which machine directions a mark's right and up are, and where one tenth of a turn in
 * of every screw before it sends the mark. Both compute this independently and must agree.
 */
import { describe, expect, test } from 'vitest';
import type { Layout, Vector } from '../../src/optics/index.ts';
import { byProduct, byReferee, directionsTable, type Row } from '../optics/directions-table.ts';
import { everyLayout, pathOf } from '../optics/layouts.ts';

const AGREES = 1e-9;

/** Compares two tables of one layout; returns the number of compared moves. */
function compare(layout: Layout): number {
  const [ours, theirs] = [byProduct, byReferee].map((by) => directionsTable(layout, by)) as [
    readonly Row[],
    readonly Row[],
  ];
  let moves = 0;
  ours.forEach((row, at) => {
    const other = theirs[at];
    const where = `${pathOf(layout)}, ${row.tape}`;
    if (apart(row.right, other?.right) + apart(row.up, other?.up) !== 0) throw new Error(`${where}: frames differ`);
    row.moves.forEach((move, nth) => {
      const far = Math.max(apart(move.across, other?.moves[nth]?.across), apart(move.above, other?.moves[nth]?.above));
      if (!(far <= AGREES))
        throw new Error(`${where}: ${move.screw} of mirror ${move.mirror + 1} differs by ${far} mm`);
      moves += 1;
    });
  });
  return moves;
}

function apart(a: Vector, b: Vector = [NaN, NaN, NaN]): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

describe('product and library agree on every direction', () => {
  test.each([
    ['no mirror', 0, 6, 0],
    ['one mirror', 1, 24, 3],
    ['two mirrors', 2, 96, 9],
    ['three mirrors', 3, 384, 18],
    ['four mirrors', 4, 1536, 30],
  ])('%s and a lens', (_, mirrors, count, movesEach) => {
    const layouts = everyLayout(mirrors);
    expect(layouts).toHaveLength(count);
    expect(new Set(layouts.map(pathOf)).size).toBe(count);
    const moves = layouts.map(compare).reduce((sum, one) => sum + one, 0);
    expect(moves).toBe(count * movesEach);
    console.log(`compared ${count} layouts of ${mirrors} mirrors, ${moves} moves`);
  });
});
