/**
 * A mount with a wrong description in the workbook, in 24 ways: the measured responses of its screws reveal it, and are
 * used.
 */
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import type { Evaluation } from '../../src/model/index.ts';
import { Logged } from '../simulation/logged.ts';
import { usualPlan, type Plan } from '../simulation/world.ts';
import { codes, LIMITS, stepTexts } from '../support/log.ts';

const PLAN = usualPlan(20);
const WRONG = ['in', 'mirror', 'swap', 'pitch'] as const;
/** Initial tilt of M1, rad: the far mark is then some 6 mm off. */
const STARTS = [
  [0.004, 0.001],
  [-0.004, 0.001],
  [0.001, 0.004],
  [0.001, -0.004],
  [0.003, 0.003],
  [-0.003, -0.003],
] as const;
const ONLY_M2 = LIMITS.replace(/^ {2}(M3|lens): .*\n/gm, '');
/** mm: the edge of the tape on M2. */
const EDGE = 10;

/** Follows the advice until it ends, with exact turns and readings. */
function followed(
  plan: Plan,
  [right, up]: readonly [number, number],
  rounds = 16,
): { readonly ends: Evaluation; readonly largest: readonly number[]; readonly turns: readonly (readonly number[])[] } {
  const still = { piston: 0, right: 0, up: 0 };
  const logged = new Logged(plan, ONLY_M2, { fault: { plates: [{ piston: 0, right, up }, still, still] } }).shoot(0);
  const largest: number[] = [];
  const turns: number[][] = [];
  for (let round = 0; round < rounds; round++) {
    const result = evaluate(logged.entries);
    if (result.verdict !== 'continue') return { ends: result, largest, turns };
    for (const step of result.steps) logged.do(step);
    turns.push(result.steps.flatMap((step) => (step.kind === 'turn' ? [step.turns] : [])));
    const shot = result.steps.find(({ kind }) => kind === 'shoot');
    if (shot?.kind === 'shoot' && shot.shots.some(({ at }) => at === 410)) logged.middles(1);
    else logged.shoot(shot?.kind === 'shoot' && shot.station === 'M1' ? 0 : 1);
    largest.push(Math.max(...logged.marks(1).map((mark) => Math.hypot(mark.right, mark.up))));
  }
  return { ends: evaluate(logged.entries), largest, turns };
}

describe.each(WRONG)('described wrongly: %s', (wrongMount) => {
  test.each(STARTS.map((start) => [start] as const))(
    'M1 at first %j: ends within, and after the first turn no mark that was on the tape leaves it',
    (start) => {
      const { ends, largest, turns } = followed({ ...PLAN, wrongMount }, start);
      expect(ends.verdict, stepTexts(ends).join()).toBe('within');
      const first = turns.findIndex((some) => some.length > 0);
      expect(first).toBeGreaterThanOrEqual(0);
      expect(Math.max(...largest.slice(first))).toBeLessThanOrEqual(Math.max(EDGE, largest[first]!));
    },
  );
});

test('a correctly described mount causes no finding', () => {
  for (const start of STARTS) {
    const { ends } = followed(PLAN, start);
    expect([ends.verdict, codes(ends.findings).filter((code) => code === 'mount.contradicted')]).toEqual([
      'within',
      [],
    ]);
  }
});
