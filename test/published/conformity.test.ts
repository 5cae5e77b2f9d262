/**
 * The program's own verdict against conformance probabilities (JCGM 106:2012: the share of a measurand's distribution
 * inside the tolerance) that were not computed by it.
 *
 * Rows of one dimension are given to `probabilities`, which every verdict, step and record asks: a mark that is
 * uncertain in one direction alone. Rows of two go through a whole workbook: one mark, one limit, the verdict that
 * comes out. Values read in a text are marked as such; *computed independently*: by another library, from the
 * definition. The examples of JCGM 106 are from memory; their figures are computed independently.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { probabilities } from '../../src/verdict/probability.ts';
import type { Demand } from '../../src/verdict/demand.ts';
import { chiSquareUpper, matrix } from '../../src/statistics/index.ts';
import { evaluated, stationOf } from '../support/log.ts';

/** That a value read as `value` with u `u` lies within `limit` of zero: a mark of which only right is uncertain. */
function verdict(value: number, u: number, limit: number): number {
  const covariance = matrix(2, 2);
  covariance.data[0] = u ** 2;
  const asked = { limits: { centre: limit }, places: [{ at: 'here', with: {}, carriages: {} }] } as unknown as Demand;
  return probabilities(asked, { mean: Float64Array.of(value, 0), covariance }).joint;
}

/** Far enough away that the other limit of a one-sided tolerance has no effect. */
const FAR = 1000;

describe('one dimension: JCGM 106 (from memory), figures computed independently', () => {
  test('one upper limit: −5.40 V, value −5.47 V, u 0.05 V (7.3)', () =>
    expect(verdict(FAR - 0.07, 0.05, FAR)).toBeCloseTo(0.919243340766, 9));

  test('one lower limit: 490 kPa, value 507 kPa, u 10 kPa (7.3)', () =>
    expect(verdict(FAR - 17, 10, FAR)).toBeCloseTo(0.955434537241, 9));

  test('two limits: 12.5 to 16.3, value 13.6, u 1.8 (7.4)', () =>
    expect(verdict(13.6 - 14.4, 1.8, 1.9)).toBeCloseTo(0.662629786495, 9));

  test.each([
    [0.8, 0.84162123],
    [0.9, 1.28155157],
    [0.95, 1.64485363],
    [0.99, 2.32634787],
    [0.999, 3.09023231],
  ])(
    'a value as far inside one limit as Table 1 has it conforms with %d: %d u (that there is such a table was read; its digits computed independently)',
    (p, z) => expect(verdict(FAR - z, 1, FAR)).toBeCloseTo(p, 8),
  );

  test('limit 100, u 2 % of the value: from 106.5876094854 on it is beyond with 99.9 % (8.3.3)', () =>
    expect(verdict(106.5876094854, 0.02 * 106.5876094854, 100)).toBeCloseTo(0.001, 9));
});

describe('two dimensions, through a workbook: noncentral chi-square of two degrees of freedom, J. Burkardt’s table (see data/PROVENANCE.md)', () => {
  const rows = readFileSync(new URL('./data/burkardt-ncx2.csv', import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(',').map(Number));
  const ofTwo = rows.filter(([df]) => df === 2) as [number, number, number, number][];

  test('five rows', () => expect(ofTwo).toHaveLength(5));

  /** Nothing is known beforehand: the priors are a thousand times the reading. */
  const report = (offset: number, limit: number, confidence: number) =>
    stationOf(
      evaluated(
        'machine: m\nsource: {fires: left}\npath:\n  M1: {leg: 90 mm, aperture: 60 mm}\npriors: {tubeOffset: 1000 mm, apertureOffset: 1 mm}\n',
        `limits: l\nstations:\n  M1: {centre: ${limit} mm}\nreading: {resolution: 1 um, placing: 1 mm}\nconfidence: ${confidence} %\n`,
        `marks: M1\nshots: ${offset} right 0 up\n`,
      ),
      'M1',
    );

  test.each(ofTwo)(
    'df %d, λ %d, x %d: a mark √λ mm off, read to 1 mm, is within √x mm with probability %d',
    (_, lambda, x, probability) => {
      const { requirements, state } = report(Math.sqrt(lambda), Math.sqrt(x), 90);
      expect(Math.abs(requirements[0]!.probability! - probability)).toBeLessThan(1e-5);
      expect(state).not.toBe('within');
    },
  );

  test('the state follows the probability: within at 69 % required, not at 70 %', () => {
    expect(report(Math.sqrt(0.5), Math.sqrt(3), 69).state).toBe('within');
    expect(report(Math.sqrt(0.5), Math.sqrt(3), 70).state).toBe('borderline');
  });
});

test('a gamma distribution, shape 4, rate 4 per µm, beyond 2 µm: 0.042380111991684', () => {
  // JCGM 106 example 9.5.4 (ball bearings) as reproduced in sandialabs/suncal, doc/API Examples, "Risk - Ball Bearing",
  // and computed independently. Gamma of shape k and rate r is chi-square of 2k degrees of freedom at 2 r x: the
  // function by which a verdict asks whether its marks agree.
  expect(Math.abs(chiSquareUpper(2 * 4 * 2, 2 * 4) / 0.042380111991684 - 1)).toBeLessThan(1e-12);
});
