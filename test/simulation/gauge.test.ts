/**
 * Quantities that marks cannot determine change no advice: a common offset of everything by a millimetre, and the
 * position of M1's aperture.
 *
 *     SEED=7 MACHINES=200 npm run test:simulation
 */
import { expect, test } from 'vitest';
import type { Evaluation } from '../../src/model/index.ts';
import { limitsCell } from './limits.ts';
import { asFound, drawnPlan, ENGRAVERS } from './machines.ts';
import { random } from './random.ts';
import { work } from './technician.ts';
import { layoutOf, withShift, type Plan, type Truth } from './world.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const MACHINES = Number(process.env['MACHINES'] ?? 60);

test('a machine a millimetre higher gets the same advice, turn for turn', () => {
  const draw = random(SEED);
  let others = 0;
  for (let machine = 0; machine < MACHINES; machine++) {
    const plan = drawnPlan(draw, ENGRAVERS[machine % ENGRAVERS.length]!);
    const low = asFound(draw);
    const high = (['tube', 0, 1, 2, 3] as const).reduce(
      (truth, part) => withShift(truth, layoutOf(plan), part, [0, 0, 1]),
      low,
    );
    const done = (truth: Truth) =>
      work(plan, truth, limitsCell())
        .text.split('---\n')
        .filter((cell) => cell.startsWith('adjust'));
    if (JSON.stringify(done(high)) !== JSON.stringify(done(low))) others++;
  }
  console.log(`seed ${SEED}: ${MACHINES} machines, each at two heights, ${others} advised otherwise`);
  // Rounding in the last digit may choose between two moves that are as good as each other: the tube or M1’s block.
  expect(others).toBeLessThanOrEqual(MACHINES / 20);
});

/** Resolution of a turn by hand: advice that differs by less is the same. Turns. */
const HAND = 1 / 16;

test('the position of M1’s aperture does not change what is turned for M2', () => {
  const draw = random(SEED);
  let compared = 0;
  let others = 0;
  for (let machine = 0; machine < MACHINES; machine++) {
    const plan = drawnPlan(draw, ENGRAVERS[machine % ENGRAVERS.length]!);
    const result = asFound(draw);
    // The beam meets M1 near its middle, so that M1 is within at any position of its aperture.
    const truth = { ...result, tube: { ...result.tube, right: 0, up: 0 } };
    const plain = turnsForM2(plan, truth);
    const moved = turnsForM2(plan, withAperture(truth, 1));
    if (Object.keys(plain).length === 0) continue;
    compared++;
    const screws = new Set([...Object.keys(plain), ...Object.keys(moved)]);
    if ([...screws].some((screw) => Math.abs((plain[screw] ?? 0) - (moved[screw] ?? 0)) > HAND + 1e-9)) others++;
  }
  console.log(`seed ${SEED}: ${compared} machines compared, ${others} advised otherwise`);
  expect(compared).toBeGreaterThan(MACHINES / 3);
  expect(others).toBe(0);
});

function withAperture(truth: Truth, right: number): Truth {
  return {
    ...truth,
    apertures: truth.apertures.map((aperture, k) =>
      k === 0 ? { ...aperture, right: aperture.right + right } : aperture,
    ),
  };
}

/** The first turns that are advised for M2, by part and screw. */
function turnsForM2(plan: Plan, truth: Truth): Record<string, number> {
  let first: Record<string, number> | undefined;
  work(plan, truth, limitsCell(), undefined, (_, evaluation) => {
    const turns = turnsIn(evaluation);
    const target = evaluation.stations.find(({ requirements, state }) => requirements.length > 0 && state !== 'within');
    if (target?.name === 'M2' && Object.keys(turns).length > 0) first ??= turns;
  });
  return first ?? {};
}

function turnsIn({ steps }: Evaluation): Record<string, number> {
  return Object.fromEntries(
    steps.flatMap((step) => (step.kind === 'turn' ? [[`${step.part}.${step.screw}`, step.turns]] : [])),
  );
}
