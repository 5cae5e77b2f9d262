/**
 * The probability reported for the whole-machine move is calibrated: on machines drawn from the priors that their
 * workbooks name, all stations shot as found, the move succeeds at the reported rate.
 *
 *     SEED=3 SURVEYS=2000 npm run test:simulation
 */
import { expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import { Logged } from './logged.ts';
import { drawnPlan, ENGRAVERS } from './machines.ts';
import { random } from './random.ts';
import type { Mark } from './workshop.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const SURVEYS = Number(process.env['SURVEYS'] ?? 240);

/** A machine that was aligned not long ago, with screws and rails that are known well. */
const DOUBT = 10;
const PRIORS = {
  tubeOffset: 0.8,
  tubeAngle: 0.0008,
  mirrorTilt: 0.0012,
  mirrorPiston: 0.5,
  apertureOffset: 0.4,
  racking: 0.0003,
  railBend: 0.2,
};

const LIMITS = `limits: trial
stations:
  M1: {centre: 3 mm}
  M2: {centre: 2.5 mm, spread: 2 mm}
  M3: {centre: 2.5 mm, spread: 2 mm}
  lens: {centre: 2 mm}
reading: {resolution: 0.5 mm, placing: 0.2 mm}
confidence: 80 %
`;
const CENTRES = [3, 2.5, 2.5, 2];
const SPREAD = { stations: [1, 2], most: 2 };

test('the whole-machine move succeeds at the reported rate', () => {
  const offers = Array.from({ length: SURVEYS }, (_, k) => offered(k)).filter((one) => one !== undefined);
  const spared = offers.filter(({ isWithin }) => isWithin).length;
  const promised = offers.reduce((sum, { probability }) => sum + probability, 0);
  const deviation = Math.sqrt(offers.reduce((sum, { probability }) => sum + probability * (1 - probability), 0));
  console.log(
    `seed ${SEED}: ${SURVEYS} machines shot everywhere, ${offers.length} offers to bring everything within at once, ${promised.toFixed(1)} ± ${deviation.toFixed(1)} promised to succeed, ${spared} did`,
  );
  expect(offers.length).toBeGreaterThan(SURVEYS / 40);
  expect(Math.abs(spared - promised)).toBeLessThan(3 * deviation);
});

function offered(k: number): { readonly probability: number; readonly isWithin: boolean } | undefined {
  const draw = random(Math.imul(SEED, 0x9e3779b1) + k);
  const log = new Logged(drawnPlan(draw, ENGRAVERS[k % ENGRAVERS.length]!, { doubt: DOUBT }), LIMITS, {
    priors: PRIORS,
    draw,
  })
    .shoot(0, 1, 2, 3)
    .middles(1, 2);
  const { whole } = evaluate(log.entries);
  if (!whole) return undefined;
  for (const step of whole.steps) log.do(step);
  return { probability: whole.probability, isWithin: isWithin(log) };
}

function isWithin(log: Logged): boolean {
  const marks = CENTRES.map((_, station) => log.marks(station));
  const difference = (some: readonly Mark[]) =>
    Math.max(...some.flatMap((one) => some.map((other) => Math.hypot(one.right - other.right, one.up - other.up))));
  return (
    marks.every((some, station) => some.every(({ right, up }) => Math.hypot(right, up) <= CENTRES[station]!)) &&
    SPREAD.stations.every((station) => difference(marks[station]!) <= SPREAD.most)
  );
}
