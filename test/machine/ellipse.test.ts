/** Where the next mark comes: the ellipse of 95 %, and how it is said. */
import { describe, expect, test } from 'vitest';
import { ellipse } from '../../src/machine/ellipse.ts';
import { expectedInWords } from '../../src/words/index.ts';
import type { Expected, StationReport } from '../../src/model/index.ts';
import { CENTRED, log, stationOf } from '../support/log.ts';

/** −2 ln 0.05: chi-square with two degrees of freedom is an exponential distribution. */
const SQUARE = -2 * Math.log(0.05);

describe('the ellipse of a covariance rr, ru, uu', () => {
  test.each([
    ['wide', [4, 0, 1], 2, 1, 0],
    ['high', [1, 0, 9], 3, 1, 90],
    ['along right and up', [2.5, 1.5, 2.5], 2, 1, 45],
    ['along right and down', [2.5, -1.5, 2.5], 2, 1, -45],
    ['a needle', [1, 1, 1], Math.SQRT2, 0, 45],
  ] as const)('%s', (_, covariance, major, minor, degrees) => {
    const result = ellipse(covariance);
    expect(result.major).toBeCloseTo(major * Math.sqrt(SQUARE), 9);
    expect(result.minor).toBeCloseTo(minor * Math.sqrt(SQUARE), 6);
    expect(result.angle).toBeCloseTo((degrees * Math.PI) / 180, 9);
  });

  /** zᵀ C⁻¹ z on the rim, C⁻¹ written out. */
  test.each([[[3, 1.2, 2]], [[0.4, -0.3, 5]], [[7, 2, 7]]] as const)(
    '%j: every point of its rim is as improbable',
    ([rr, ru, uu]) => {
      const { major, minor, angle } = ellipse([rr, ru, uu]);
      for (let k = 0; k < 12; k++) {
        const [long, short] = [major * Math.cos(k), minor * Math.sin(k)];
        const [right, up] = [
          long * Math.cos(angle) - short * Math.sin(angle),
          long * Math.sin(angle) + short * Math.cos(angle),
        ];
        expect((uu * right ** 2 - 2 * ru * right * up + rr * up ** 2) / (rr * uu - ru ** 2)).toBeCloseTo(SQUARE, 9);
      }
    },
  );
});

test('what is expected carries the ellipse of its own uncertainty', () => {
  const { expected } = log(CENTRED.M1, 'marks: M2\nshots: {near: 0.4 right 0 up, far: 2.8 right 0 up}\n');
  expect(expected).toHaveLength(2);
  for (const {
    u,
    ellipse: { major, minor, angle },
  } of expected) {
    const along = (by: number) =>
      Math.sqrt((major * Math.cos(by)) ** 2 + (minor * Math.sin(by)) ** 2) / Math.sqrt(SQUARE);
    expect(along(angle)).toBeCloseTo(u.right, 9);
    expect(along(angle + Math.PI / 2)).toBeCloseTo(u.up, 9);
  }
});

describe('in words', () => {
  const M2 = stationOf(log(CENTRED.M1, CENTRED.M2), 'M2');
  const lens = stationOf(log(CENTRED.M1, CENTRED.M2), 'lens');
  const words = (
    station: StationReport,
    mark: { right: number; up: number },
    [rr, ru, uu]: readonly [number, number, number],
    others = {},
  ): string => {
    const u = { right: Math.sqrt(rr), up: Math.sqrt(uu), r: ru / Math.sqrt(rr * uu) };
    const expected: Expected = {
      station: station.name,
      at: station.name === 'M2' ? 'far' : 'here',
      with: others,
      ...mark,
      u,
      ellipse: ellipse([rr, ru, uu]),
    };
    return expectedInWords(expected, station);
  };
  const mark = { right: 0.3, up: 1.2 };

  test.each([
    ['round', [0.06, 0, 0.07], '± 0.6 mm (95 %)'],
    ['hardly longer than wide', [0.06, 0, 0.2], '± 1.1 mm (95 %)'],
    ['wide', [0.6, 0.05, 0.06], '± 0.6 mm, ± 1.9 mm sideways (95 %)'],
    ['high', [0.06, 0.05, 0.6], '± 0.6 mm, ± 1.9 mm up and down (95 %)'],
    ['upright the other way', [0.06, -0.05, 0.6], '± 0.6 mm, ± 1.9 mm up and down (95 %)'],
    ['aslant', [0.33, 0.27, 0.33], '± 0.6 mm, ± 1.9 mm along up right (machine left) (95 %)'],
    ['aslant the other way', [0.33, -0.27, 0.33], '± 0.6 mm, ± 1.9 mm along up left (machine right) (95 %)'],
  ] as const)('%s', (_, covariance, text) => {
    expect(words(M2, mark, covariance)).toBe(
      `M2, gantry far from M1 (front): 0.3 right (machine left) 1.2 up, ${text}`,
    );
  });

  test.each([
    ['wide', [0.6, 0, 0.06], '1.9 mm left and right'],
    ['high', [0.06, 0, 0.6], '1.9 mm front and rear'],
    ['aslant', [0.33, -0.27, 0.33], '1.9 mm along rear left'],
  ] as const)('in the machine’s words alone where the beam runs down: %s', (_, covariance, text) => {
    expect(words(lens, mark, covariance, { M2: 'near', M3: 'near' })).toBe(
      `lens, gantry near M1 (rear), head near M2 (left): 0.3 right 1.2 rear, ± 0.6 mm, ± ${text} (95 %)`,
    );
  });

  test.each([
    ['as wide as the tape', mark, [17, 0, 17], 'anywhere on the tape'],
    ['far wider', mark, [200, 0, 200], 'anywhere on the tape, or past it'],
    ['wide, and off the tape', { right: 14, up: 0 }, [25, 0, 25], 'anywhere on the tape, or past it'],
  ] as const)('no number where it says nothing: %s', (_, at, covariance, text) => {
    expect(words(M2, at, covariance)).toBe(`M2, gantry far from M1 (front): ${text}`);
  });
});
