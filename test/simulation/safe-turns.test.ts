/**
 * Machines on which two screws of every mount are exchanged in the workbook. The first response of a mirror fits both
 * descriptions, or fits the wrong one nearly as well: a second turn by the workbook alone drove a mark off its tape on
 * each.
 */
import { expect, test } from 'vitest';
import { drawMachine, sessionOf } from '../bench/converge-machine.ts';
import { losesMark } from '../bench/converge-world.ts';

const SEED = 411;
const MACHINES = [32, 36, 70, 109, 115];

test.each(MACHINES)(
  'machine %i loses no mark after the first response, and gives the reason for a small turn',
  (machine) => {
    const { log } = sessionOf(
      drawMachine({ seed: SEED, start: 1, places: 'given', command: 0, world: 'wrong=swap' }, machine),
    );
    expect(losesMark(log)).toBe(false);
    const reasons = log.flatMap(({ done }) => done.flatMap(({ why }) => why ?? []));
    expect(reasons.some((why) => why.includes('The turn is kept small: '))).toBe(true);
  },
);
