/** Clipping loss of an aperture: published figures, a sum over the disc by independent code, and general properties. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { transmission, transmissionAtSlant } from '../../src/light/index.ts';
import { drawn } from '../support/amount.ts';

/** A/w and d/w are radii here, as in the figures. */
const share = (a: number, d: number, w: number) => transmission(2 * a, 2 * w, d);

const OFF = [
  [1, 0.25, 1, 0.830859361491],
  [1, 0.5, 1, 0.73098793994],
  [1, 1, 1, 0.396499039388],
  [1.5, 1, 1, 0.785637911837],
  [5, 1, 3, 0.990397528466],
  [9, 2, 3.5, 0.999929811922],
  [3, 4, 2, 0.125896116628],
] as const;

describe.each(OFF)('aperture radius %d, offset %d, beam radius %d', (a, d, w, expected) => {
  test('as computed independently', () => expect(Math.abs(share(a, d, w) - expected)).toBeLessThan(1e-10));
  test('as a sum over the disc', () => expect(Math.abs(share(a, d, w) - overDisc(a, w, d, 0, 1))).toBeLessThan(1e-6));
});

test.each([
  [9, 1, 3, 2],
  [9, 0, 8, 3],
  [9, 4, 5, 1],
  [6, -2, 6, 5],
])('a face at 45°, radius %d, beam at %d, radius %d, %d across: as a sum over its ellipse', (a, x, w, y) => {
  expect(
    Math.abs(transmissionAtSlant(2 * a, 2 * w, { within: x, across: y }) - overDisc(a, w, x, y, Math.SQRT1_2)),
  ).toBeLessThan(1e-6);
});

const size = fc.double({ min: 0.5, max: 30, noNaN: true });
const off = fc.double({ min: 0, max: 20, noNaN: true });

test('a transmission is 0 … 1, decreases with the offset, and is the same on every side', () => {
  fc.assert(
    fc.property(size, size, off, off, (aperture, diameter, one, other) => {
      const [near, far] = one < other ? [one, other] : [other, one];
      const [more, less] = [transmission(aperture, diameter, near), transmission(aperture, diameter, far)];
      expect(more).toBeLessThanOrEqual(1);
      expect(less).toBeGreaterThanOrEqual(0);
      expect(less).toBeLessThanOrEqual(more + 1e-12);
      const slant = transmissionAtSlant(aperture, diameter, { within: near, across: far });
      expect(Math.abs(transmissionAtSlant(aperture, diameter, { within: -near, across: far }) - slant)).toBeLessThan(
        1e-9,
      );
      expect(slant).toBeLessThanOrEqual(transmission(aperture, diameter, Math.hypot(near, far)) + 1e-9);
    }),
    drawn(100),
  );
});

/**
 * Beam of radius w about (x, y), summed in rings and spokes over a disc of radius a whose x is squeezed by `squeeze`.
 */
function overDisc(a: number, w: number, x: number, y: number, squeeze: number): number {
  const [rings, spokes] = [2000, 240];
  let sum = 0;
  for (let ring = 0; ring < rings; ring++) {
    const r = ((ring + 0.5) * a) / rings;
    for (let spoke = 0; spoke < spokes; spoke++) {
      const angle = (2 * Math.PI * spoke) / spokes;
      const away = (squeeze * r * Math.cos(angle) - x) ** 2 + (r * Math.sin(angle) - y) ** 2;
      sum += Math.exp((-2 * away) / w ** 2) * r;
    }
  }
  return (sum * squeeze * (a / rings) * ((2 * Math.PI) / spokes) * 2) / (Math.PI * w ** 2);
}
