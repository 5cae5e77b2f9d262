/**
 * Conformance probabilities as JCGM 106 defines them: the share of a measurand's distribution inside the tolerance.
 *
 * What was read in a text is named so. The other figures are *computed independently*: they follow from the definition and
 * were worked out with another library, not read in the document.
 */
import { describe, expect, test } from 'vitest';
import { chiSquareUpper, normalBetween, normalCdf, normalQuantile } from '../../src/statistics/index.ts';

const expectRelative = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found / expected - 1)).toBeLessThan(tolerance);

describe('normal distributions, computed independently', () => {
  test('one upper limit: −5.40, value −5.47, u 0.05', () => expectRelative(normalCdf((-5.4 + 5.47) / 0.05), 0.919243340766, 1e-10));

  test('one lower limit: 490, value 507, u 10', () => expectRelative(normalCdf((507 - 490) / 10), 0.955434537241, 1e-10));

  test('two limits: 12.5 to 16.3, value 13.6, u 1.8', () =>
    expectRelative(normalBetween((12.5 - 13.6) / 1.8, (16.3 - 13.6) / 1.8), 0.662629786495, 1e-10));

  test.each([
    [0.8, 0.84162123],
    [0.9, 1.28155157],
    [0.95, 1.64485363],
    [0.99, 2.32634787],
    [0.999, 3.09023231],
  ])('distance from a limit for conformance probability %d', (p, z) => expect(Math.abs(normalQuantile(p) - z)).toBeLessThan(1e-8));

  test('limit 100, u 2 % of the value, 99.9 %: accepted as beyond it from 106.5876094854', () =>
    expectRelative(100 / (1 - 0.02 * normalQuantile(0.999)), 106.5876094854, 1e-10));
});

test('a gamma distribution, shape 4, rate 4 per µm, beyond 2 µm: 0.042380111991684', () => {
  // JCGM 106 example 9.5.4 (ball bearings) as reproduced in sandialabs/suncal, doc/API Examples, "Risk - Ball Bearing", and
  // computed independently. Gamma of shape k and rate r is chi-square of 2k degrees of freedom at 2 r x.
  expectRelative(chiSquareUpper(2 * 4 * 2, 2 * 4), 0.042380111991684, 1e-12);
});
