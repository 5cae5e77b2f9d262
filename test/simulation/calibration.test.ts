/**
 * The tool's uncertainties are calibrated in a world drawn from its own named priors, and stay so in long logs: one
 * mark of each log, picked at random, is compared with its prediction.
 *
 *     SEED=3 LOGS=5000 npm run test:simulation
 */
import { expect, test } from 'vitest';
import { runFilter } from '../../src/estimate/filter.ts';
import type { SegmentEvent } from '../../src/estimate/segment.ts';
import { propagate, priorDistribution } from '../../src/estimate/distribution.ts';
import { update } from '../../src/estimate/update.ts';
import { cholesky, chiSquareQuantile, covarianceBetween, fromEntries } from '../../src/statistics/index.ts';
import { drawnLog, endlessLog } from './calibration.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const LOGS = Number(process.env['LOGS'] ?? 2200);

function measured(rounded: boolean): { count: number; held: number; nis: number } {
  const result = Array.from(
    { length: LOGS },
    (_, k) => drawnLog(Math.imul(SEED, 0x9e3779b1) + k, rounded).predicted,
  ).filter((one) => one !== undefined);
  const held = result.filter(({ nis }) => nis <= chiSquareQuantile(0.95, 2)).length;
  return {
    count: result.length,
    held: held / result.length,
    nis: result.reduce((sum, { nis }) => sum + nis / 2, 0) / result.length,
  };
}

test('the 95 % ellipse holds 95 % of the readings', () => {
  const { count, held, nis } = measured(false);
  const rounded = measured(true);
  console.log(
    `seed ${SEED}: ${count} marks, ${(100 * held).toFixed(1)} % inside the 95 % ellipse, mean NIS per degree of freedom ${nis.toFixed(3)}; read to half a millimetre ${(100 * rounded.held).toFixed(1)} % and ${rounded.nis.toFixed(3)}`,
  );
  expect(count).toBeGreaterThan(0.85 * LOGS);
  expect(held).toBeGreaterThan(0.93);
  expect(held).toBeLessThan(0.97);
  expect(nis).toBeGreaterThan(0.95);
  expect(nis).toBeLessThan(1.05);
});

test('after a thousand cells the covariance is still positive definite', () => {
  const happenings = endlessLog(SEED, 1000);
  let distribution = priorDistribution(happenings.system);
  let cells = 0;
  for (const what of happenings.steps) {
    distribution = 'move' in what ? propagate(distribution, what.move) : update(distribution, what.readings);
    cells++;
  }
  const { covariance } = distribution;
  const size = covariance.length;
  expect(cholesky(fromEntries(size, size, (i, k) => covarianceBetween(covariance, i, k)))).toBeDefined();
  console.log(`${cells} cells, ${covariance.length} unknowns`);
  expect(cells).toBe(1000);
});

test('the filter’s state does not depend on when it was requested', () => {
  for (let k = 0; k < 20; k++) {
    // Two copies of one log: states are cached by the events of a log, and each copy must get its own.
    const whole = runFilter(drawnLog(k + 1, false).segment).distribution;
    const { segment } = drawnLog(k + 1, false);
    const steps: SegmentEvent[] = [];
    for (let one = segment.last; one; one = one.before) steps.unshift(one);
    const stepwise = steps.map((last) => runFilter({ ...segment, last }).distribution).at(-1);
    expect(stepwise && [...stepwise.values]).toEqual(steps.length > 0 ? [...whole.values] : undefined);
  }
});
