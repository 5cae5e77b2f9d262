/**
 * What a hole takes of a beam: published figures, a sum over the disc by independent code, and what must always hold.
 */
import { expect, test } from 'vitest';
import { transmission } from '../../src/light/index.ts';

/** A/w and d/w are radii here, as in the figures. */
const share = (a: number, d: number, w: number) => transmission(2 * a, 2 * w, d);

test.each([
  [0.5, 0.393469340287],
  [1, 0.864664716763],
  [1.5, 0.988891003462],
  [2, 0.999664537372],
])(
  'aperture radius %d w: %d (1 − exp(−2 a²/w²); 13.5 %% lost at a = w as in a public optics teaching page, digits computed independently)',
  (a, expected) => expect(Math.abs(share(a, 0, 1) - expected)).toBeLessThan(1e-11),
);

test('an aperture of diameter π w transmits 99 % (Photonics Rules of Thumb, 2nd ed., quoting Siegman; digits computed independently)', () =>
  expect(Math.abs(share(Math.PI / 2, 0, 1) - 0.992808116644)).toBeLessThan(1e-11));
