/**
 * Shooting ends: on machines that differ from the workbook's description, the same shots are not requested again and
 * again without another step between.
 *
 *     SEED=7 MACHINES=300 npm run test:simulation
 */
import { expect, test } from 'vitest';
import { limitsCell } from './limits.ts';
import { afterTransport, drawnPlan, ENGRAVERS } from './machines.ts';
import { random } from './random.ts';
import { work, type Round } from './technician.ts';
import { inWorld, workshopIn, worldOf } from './worlds.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const MACHINES = Number(process.env['MACHINES'] ?? 40);
/** How often the same shots may be requested in a row: twice, and some more if the reading uncertainty is too large. */
const MOST = 5;

test.each(['wrong=in', 'outliers=0.05'])('in the world %s', (name) => {
  const draw = random(SEED);
  const world = worldOf(name);
  const failures: string[] = [];
  let most = 0;
  let rounds = 0;
  for (let machine = 0; machine < MACHINES; machine++) {
    const plan = drawnPlan(draw, ENGRAVERS[machine % ENGRAVERS.length]!);
    const { plan: described, start } = inWorld(world, plan, afterTransport(draw, plan, 1), draw);
    const { log } = work(described, start, limitsCell(), workshopIn(world, machine + 1));
    const times = longestRun(log);
    rounds += log.length;
    most = Math.max(most, times);
    if (times > MOST) failures.push(`machine ${machine}: the same shots ${times} times in a row`);
  }
  console.log(
    `seed ${SEED}, ${name}: ${MACHINES} machines, ${rounds} rounds, the same shots requested ${most} times in a row at most`,
  );
  expect(rounds).toBeGreaterThan(5 * MACHINES);
  expect(failures).toEqual([]);
});

/** Rounds in a row whose steps are the same shots and nothing else. */
function longestRun(log: readonly Round[]): number {
  let longest = 0;
  let run = 0;
  let before = '';
  for (const { done } of log) {
    const shots = done.every(({ kind }) => kind === 'shoot')
      ? JSON.stringify(done.map((step) => (step.kind === 'shoot' ? [step.station, step.shots] : [])))
      : '';
    run = shots !== '' && shots === before ? run + 1 : shots === '' ? 0 : 1;
    before = shots;
    longest = Math.max(longest, run);
  }
  return longest;
}
