import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  discProbability,
  noncentralChiSquareCdf,
  normalBetween,
  normalCdf,
  riceCdf,
} from '../../src/statistics/index.ts';
import { pairs, relativeError, worstOf } from './close.ts';
import { normalDraws } from './random.ts';

describe('riceCdf', () => {
  test('centred it is Rayleigh', () => {
    for (const radius of [1e-8, 0.1, 1, 3])
      expect(relativeError(riceCdf(radius, 0, 0.5), -Math.expm1(-2 * radius * radius))).toBeLessThan(1e-13);
  });

  test('both ways of computing it agree on either side of the change', () => {
    const cases = pairs([299, 301, 1000], [-8, -3, -1, 0, 1, 3]);
    const error = worstOf(cases, ([offset, more]) =>
      relativeError(
        riceCdf(offset + more, offset, 1),
        noncentralChiSquareCdf((offset + more) ** 2, 2, offset * offset),
      ),
    );
    expect(error.error, JSON.stringify(error.at)).toBeLessThan(1e-12);
  });

  test('far off, the edge of the disc is a straight line', () => {
    for (const z of [-5, -1, 0, 2]) expect(riceCdf(1e8 + z, 1e8, 1)).toBeCloseTo(normalCdf(z), 7);
  });

  test('no scatter: inside or not, and the limit counts as inside', () =>
    expect([riceCdf(1, 0.5, 0), riceCdf(1, 1, 0), riceCdf(1, 1.001, 0), riceCdf(0, 0, 0)]).toEqual([1, 1, 0, 1]));

  test('the smallest scatter gives the same', () => {
    expect(riceCdf(1, 0.5, 1e-300)).toBe(1);
    expect(riceCdf(1, 1.001, 1e-300)).toBe(0);
  });

  test('ends are numbers', () =>
    expect([
      riceCdf(0, 1, 1),
      riceCdf(-1, 1, 1),
      riceCdf(1e200, 1, 1),
      riceCdf(1, 1e200, 1),
      riceCdf(1, 0, 1e200),
    ]).toEqual([0, 0, 1, 0, 0]));

  test('scales with the unit', () =>
    expect(relativeError(riceCdf(1, 0.6, 0.3), riceCdf(25.4, 0.6 * 25.4, 0.3 * 25.4))).toBeLessThan(1e-13));
});

/** Midpoint sum over both axes in polar coordinates: slow, plain, and unlike the code under test. */
function byPolarSum(
  mean: [number, number],
  [xx, xy, yy]: [number, number, number],
  radius: number,
  steps = 400,
): number {
  const determinant = xx * yy - xy * xy;
  let sum = 0;
  for (let ring = 0; ring < steps; ring++) {
    const r = ((ring + 0.5) / steps) * radius;
    for (let turn = 0; turn < steps; turn++) {
      const x = r * Math.cos((2 * Math.PI * turn) / steps) - mean[0];
      const y = r * Math.sin((2 * Math.PI * turn) / steps) - mean[1];
      sum += r * Math.exp(-(yy * x * x - 2 * xy * x * y + xx * y * y) / (2 * determinant));
    }
  }
  return (sum * radius) / (steps * steps * Math.sqrt(determinant));
}

describe('discProbability', () => {
  test.each([
    [[0, 0], [1, 0, 0.25], 1],
    [[0.5, 0.1], [0.09, 0.01, 0.04], 1],
    [[0.6, 0], [0.26, 0, 0.24], 1],
    [[0.4, 0.5], [0.25, 0.01, 0.25], 1],
    [[0.7, -0.7], [0.2, -0.15, 0.3], 1],
    [[1.2, 0.4], [0.3, 0.29, 0.3], 1],
    [[30, 10], [400, 100, 90], 25],
  ] as [[number, number], [number, number, number], number][])(
    'mean %j, covariance %j, radius %d',
    (mean, covariance, radius) =>
      // The sum is periodic in the angle and errs by h² along the radius.
      expect(Math.abs(discProbability(mean, covariance, radius) - byPolarSum(mean, covariance, radius))).toBeLessThan(
        3e-6,
      ),
  );

  test('agrees with the Monte Carlo fraction of 200,000 draws', () => {
    const draw = normalDraws(5);
    let hits = 0;
    for (let count = 0; count < 200_000; count++) {
      const common = draw();
      if (Math.hypot(0.6 + 0.3 * common, 0.2 + 0.2 * common + 0.25 * draw()) <= 0.9) hits++;
    }
    // Three standard deviations of the share.
    expect(Math.abs(discProbability([0.6, 0.2], [0.09, 0.06, 0.1025], 0.9) - hits / 200_000)).toBeLessThan(0.0033);
  });

  test('equal axes are the Rice case, nearly equal ones come close to it', () => {
    const rice = riceCdf(1, Math.hypot(0.3, 0.4), 0.5);
    expect(discProbability([0.3, 0.4], [0.25, 0, 0.25], 1)).toBeCloseTo(rice, 14);
    expect(discProbability([0.3, 0.4], [0.25 + 1e-11, 0, 0.25 - 1e-11], 1)).toBeCloseTo(rice, 10);
    expect(discProbability([0.3, 0.4], [0.25, 1e-11, 0.25], 1)).toBeCloseTo(rice, 10);
  });

  test('an ellipse without width is a segment of a line', () => {
    // y = 0.6 exactly, x of deviation 0.5 about 0.2: the chord is ±0.8.
    const expected = normalBetween((-0.8 - 0.2) / 0.5, (0.8 - 0.2) / 0.5);
    expect(discProbability([0.2, 0.6], [0.25, 0, 0], 1)).toBeCloseTo(expected, 13);
    expect(discProbability([0.6, 0.2], [0, 0, 0.25], 1)).toBeCloseTo(expected, 13);
    expect(discProbability([0.2, 0.6], [0.25, 0, 1e-20], 1)).toBeCloseTo(expected, 9);
    expect(discProbability([0.2, 0.6], [0.25, 0, 1e-40], 1)).toBeCloseTo(expected, 9);
    // The same, turned by 45°.
    const turned: [number, number] = [(0.2 - 0.6) / Math.SQRT2, (0.2 + 0.6) / Math.SQRT2];
    expect(discProbability(turned, [0.125, 0.125, 0.125], 1)).toBeCloseTo(expected, 9);
  });

  test('no scatter at all: inside or not', () => {
    expect(discProbability([0.6, 0.8], [0, 0, 0], 1)).toBe(1);
    expect(discProbability([0.6, 0.81], [0, 0, 0], 1)).toBe(0);
  });

  test('a determinant rounded below zero is zero', () =>
    expect(discProbability([0, 0], [1, 1 + 1e-16, 1], 1)).toBeCloseTo(normalBetween(-Math.SQRT1_2, Math.SQRT1_2), 9));

  test('a thin ellipse along the edge of the disc', () => {
    // Deviation 1e-4 across the edge at (0, 1), none along it to speak of: half inside.
    expect(discProbability([0, 1], [1e-12, 0, 1e-8], 1)).toBeCloseTo(0.5, 3);
    // Wide along the edge, 1e-5 across: P(y² + x² ≤ 1) ≈ P(x²/2 ≤ 1e-5 · −z), with x of deviation 0.01, by quadrature
    // of z.
    let expected = 0;
    for (let step = 0; step < 20_000; step++) {
      const z = -(8 * (step + 0.5)) / 20_000;
      const across = 1 + 1e-5 * z;
      const half = Math.sqrt(1 - across * across);
      expected +=
        ((normalBetween(-half / 0.01, half / 0.01) * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI)) * (8 / 20_000);
    }
    expect(discProbability([0, 1], [1e-4, 0, 1e-10], 1)).toBeCloseTo(expected, 6);
  });

  test('a needle across the edge: its width counts, however small', () => {
    // y = 1 + 1e-9 z, so the half chord is √(2e-9 · −z) for z < 0, and E √|z| = 2^¼ Γ(¾)/√π.
    const expected = (2 / Math.sqrt(2 * Math.PI)) * Math.sqrt(2e-9) * (0.822178958662388 / 2);
    expect(relativeError(discProbability([0, 1], [1, 0, 1e-18], 1), expected)).toBeLessThan(1e-6);
  });

  const place = fc.double({ min: -2, max: 2, noNaN: true });
  const factor = fc.tuple(place, place, place);

  test('is a probability, rises with the radius, and does not care how the axes are turned', () =>
    fc.assert(
      fc.property(place, place, factor, fc.double({ min: 0, max: 7, noNaN: true }), (x, y, [a, b, c], angle) => {
        const [xx, xy, yy] = [a * a, a * b, b * b + c * c];
        const small = discProbability([x, y], [xx, xy, yy], 0.9);
        const large = discProbability([x, y], [xx, xy, yy], 1);
        expect(small).toBeGreaterThanOrEqual(0);
        expect(large).toBeLessThanOrEqual(1);
        expect(large - small).toBeGreaterThan(-1e-10);
        // Thinner than this, the turned covariance itself is not known to better than the width.
        if (Math.abs(a * c) < 1e-3) return;
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const turned = discProbability(
          [cos * x - sin * y, sin * x + cos * y],
          [
            cos * cos * xx - 2 * cos * sin * xy + sin * sin * yy,
            cos * sin * (xx - yy) + (cos * cos - sin * sin) * xy,
            sin * sin * xx + 2 * cos * sin * xy + cos * cos * yy,
          ],
          1,
        );
        expect(Math.abs(turned - large)).toBeLessThan(1e-9);
      }),
    ));
});
