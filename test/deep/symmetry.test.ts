/**
 * Checks for wrong signs: a machine and its mirror image, a machine turned on its stand, a workbook in inches. Each
 * pair of workbooks must give the same advice, mirrored, turned, or in other words.
 */
import { describe, expect, test } from 'vitest';
import type { Direction, Evaluation, Step } from '../../src/model/index.ts';
import { evaluated } from '../support/log.ts';
import { asFound, drawnPlan, ROUTES } from '../simulation/machines.ts';
import { random } from '../simulation/random.ts';
import { inWords } from '../simulation/technician.ts';
import { layoutOf, LEGS, machineCells, marksOf, type Plan } from '../simulation/world.ts';

const LIMITS = `limits: trial
stations:
  M1: {centre: 9 mm}
  M2: {centre: 2 mm, spread: 2 mm}
  M3: {centre: 2 mm, spread: 2 mm}
  lens: {centre: 2 mm}
`;

interface Mark {
  readonly right: number;
  readonly up: number;
}
type Transformed = (mark: Mark, runs: Direction) => Mark;

const CASES = 60;
/** Routes taken with a stride that is coprime to their number, so that a few cases see many kinds. */
const cases = Array.from({ length: CASES }, (_, k) => {
  const draw = random(100 + k);
  const plan = { ...drawnPlan(draw, ROUTES[(k * 61) % ROUTES.length]!), units: 'mm' } as const;
  return { plan, truth: asFound(draw) };
}).filter(({ plan, truth }) =>
  marksOf(layoutOf(plan), truth, { M2: 690, M3: 910 }).every((mark) => mark && Math.hypot(mark.right, mark.up) < 15),
);

/** All stations as found, opposite corners, their marks written in the words of `plan`. */
function advice(
  plan: Plan,
  marks: (carriages: Record<string, number>) => readonly (Mark | null)[],
  change: Transformed,
  reworded = (cells: string) => cells,
): Evaluation {
  const runs = (k: number) => (k === 0 ? plan.fires : plan.sends[k - 1]!);
  const at = (k: number, gantry: 'near' | 'far', head: 'near' | 'far') =>
    inWords(change(marks({ M2: LEGS.M2[gantry], M3: LEGS.M3[head] })[k]!, runs(k)), runs(k), plan.units);
  return evaluated(
    reworded(machineCells(plan, LIMITS)),
    `marks: M1\nshots: ${at(0, 'near', 'near')}\n`,
    `marks: M2\nshots:\n  near: ${at(1, 'near', 'near')}\n  far: ${at(1, 'far', 'near')}\n`,
  );
}

const same: Transformed = (mark) => mark;

function turns({ steps }: Evaluation) {
  return steps
    .filter((step) => step.kind === 'turn')
    .map(({ part, screw, turns: amount }) => ({ part, screw, turns: amount }));
}

function shifts({ steps }: Evaluation) {
  return steps
    .filter((step): step is Extract<Step, { kind: 'shift' }> => step.kind === 'shift')
    .map(({ part, by }) => ({ part, by: by.map((part_) => part_ + 0) }));
}

test('the cases turn screws and shift tubes', () => {
  const all = cases.map(({ plan, truth }) =>
    advice(plan, (carriages) => marksOf(layoutOf(plan), truth, carriages), same),
  );
  const turned = all.filter((evaluation) => turns(evaluation).length > 0).length;
  const shifted = all.filter((evaluation) => shifts(evaluation).length > 0).length;
  console.log(`${cases.length} machines compared with their images; ${turned} turn screws, ${shifted} shift something`);
  expect(turned).toBeGreaterThan(20);
  expect(shifted).toBeGreaterThan(3);
});

describe.each(
  cases.map((one, k) => ({
    ...one,
    name: `${k}: ${one.plan.fires} ${one.plan.sends.join(' ')}, ${one.plan.mount}, ${one.plan.in}, heads ${one.plan.heads}`,
  })),
)('$name', ({ plan, truth }) => {
  const marks = (carriages: Record<string, number>) => marksOf(layoutOf(plan), truth, carriages);
  const original = advice(plan, marks, same);

  test('in inches', () => {
    const inches = advice({ ...plan, units: 'in' }, marks, same);
    expect(turns(inches)).toEqual(turns(original));
    // The middle of a travel is rounded to half an inch there: a shift may differ by the step of a shift by hand.
    expect(shifts(inches)).toEqual(
      shifts(original).map(({ part, by }) => ({ part, by: by.map((one) => expect.closeTo(one, 0)) })),
    );
  });

  /** Left and right swap; every mark's right turns over, because right = beam × up; a screw's place likewise. */
  test('mirrored', () => {
    const swap = (direction: Direction): Direction =>
      direction === 'left' ? 'right' : direction === 'right' ? 'left' : direction;
    const image = { ...plan, fires: swap(plan.fires), sends: plan.sends.map(swap) };
    // The same places, declared as seen from the other side, are the mirrored places.
    const heads = plan.heads === 'behind' ? 'beam side' : 'behind';
    const evaluation = advice(
      image,
      marks,
      ({ right, up }) => ({ right: -right, up }),
      (cells) => cells.replace(/heads: .*/, `heads: ${heads}`),
    );
    expect(turns(evaluation)).toEqual(turns(original));
    expect(shifts(evaluation)).toEqual(
      shifts(original).map(({ part, by: [x, y, z] }) => ({ part, by: [0 - x!, y!, z!] })),
    );
  });

  /**
   * A quarter turn about the vertical, as seen from above anticlockwise: right → rear → left → front. On level legs a
   * mark turns with its leg; on vertical ones "up" stays the rear, so the mark itself turns.
   */
  test('turned on its stand', () => {
    const next: Readonly<Record<Direction, Direction>> = {
      right: 'rear',
      rear: 'left',
      left: 'front',
      front: 'right',
      up: 'up',
      down: 'down',
    };
    const turned = { ...plan, fires: next[plan.fires], sends: plan.sends.map((direction) => next[direction]) };
    const evaluation = advice(turned, marks, ({ right, up }, runs) => {
      if (runs !== 'up' && runs !== 'down') return { right, up };
      // Looking down, right = x and up = y: (x, y) → (−y, x). Looking up, right = −x: (−x, y) → (y, x) seen so.
      return runs === 'down' ? { right: -up, up: right } : { right: up, up: -right };
    });
    expect(turns(evaluation)).toEqual(turns(original));
    expect(shifts(evaluation)).toEqual(
      shifts(original).map(({ part, by: [x, y, z] }) => ({ part, by: [0 - y!, x!, z!] })),
    );
  });
});
