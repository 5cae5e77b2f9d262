/**
 * Marks against what was predicted: what fails its gate, what is left out of a set, and what tapes on the bed have to
 * say.
 */
import { describe, expect, test } from 'vitest';
import { agreement, GATE, measurement, type Innovation } from '../../src/estimate/innovation.ts';
import type { LoggedReading } from '../../src/estimate/logged-reading.ts';
import { pathTo } from '../../src/model/index.ts';
import { add, matrix } from '../../src/statistics/index.ts';

const reading = (
  right: number | undefined,
  up: number | undefined,
  more: Partial<LoggedReading> = {},
): LoggedReading => ({
  station: 1,
  order: 0,
  at: 'near',
  with: {},
  carriages: { M2: 130 },
  height: 0,
  ...(right !== undefined && { right }),
  ...(up !== undefined && { up }),
  u: 0.25,
  none: false,
  count: 1,
  cell: 0,
  path: pathTo('shots'),
  ...more,
});

/** Marks that were predicted in the middle, each part independently with `u` mm, besides what they have in common. */
function off(
  marks: readonly (readonly [number, number])[],
  u = 0.5,
  common = 0,
): { innovation: Pick<Innovation, 'groups' | 'residuals'>; covariance: ReturnType<typeof matrix> } {
  const readings = marks.map(([right, up], k) => reading(right, up, { path: pathTo(k) }));
  const { groups, noise, contrasts } = measurement(readings);
  const count = contrasts.length;
  const predicted = matrix(
    count,
    count,
    Float64Array.from({ length: count ** 2 }, (_, n) =>
      (Math.floor(n / count) - (n % count)) % 2 === 0 ? common ** 2 : 0,
    ),
  );
  for (let k = 0; k < count; k++) predicted.data[k * (count + 1)]! += u ** 2 - 0.25 ** 2;
  return {
    innovation: { groups, residuals: Float64Array.from(contrasts, ({ value }) => value) },
    covariance: add(predicted, noise),
  };
}

const out = (marks: readonly (readonly [number, number])[], u?: number, common?: number) => {
  const { innovation, covariance } = off(marks, u, common);
  return agreement(innovation, covariance, GATE).rejected.map(({ readings }) => readings[0]);
};

describe('a mark fails its gate', () => {
  test('at p < 0.001: 3.72 standard uncertainties of two coordinates', () => {
    expect(out([[1.85, 0]])).toEqual([]);
    expect(out([[1.87, 0]])).toEqual([0]);
    expect(out([[1.31, 1.31]])).toEqual([]);
    expect(out([[1.33, 1.33]])).toEqual([0]);
  });

  test('whichever it is, and the others of its cell pass', () => {
    expect(
      out([
        [0.2, 0],
        [4, 0],
        [-0.3, 0.1],
      ]),
    ).toEqual([1]);
    expect(
      out([
        [6, 1],
        [0, 0.2],
        [0, 0],
        [0, -5],
      ]),
    ).toEqual([0, 3]);
  });

  test('conditional on the others: marks that move together pass, one that moves differently fails', () => {
    expect(
      out(
        [
          [6, 0],
          [6.2, 0.1],
          [5.9, 0],
        ],
        0.3,
        6,
      ),
    ).toEqual([]);
    expect(
      out(
        [
          [6, 0],
          [6.2, 0.1],
          [2, 0],
        ],
        0.3,
        6,
      ),
    ).toEqual([2]);
  });

  test('as the worst of a set that is jointly improbable', () => {
    expect(
      out([
        [1.6, 0],
        [-1.6, 0],
        [0, 1.6],
        [0, -1.6],
      ]).length,
    ).toBeGreaterThan(0);
    expect(
      out([
        [1.2, 0],
        [-0.4, 0],
        [0, 0.4],
        [0, -0.3],
      ]),
    ).toEqual([]);
  });
});

describe('what is measured', () => {
  test('of a mark with one coordinate: that coordinate', () => {
    expect(measurement([reading(1, undefined), reading(undefined, 2)]).contrasts.map(({ value }) => value)).toEqual([
      1, 2,
    ]);
  });

  test('of a tape on the bed: differences of its marks, wherever it lies; two tapes are not compared', () => {
    const bed = (right: number, height: number, order = 0) =>
      reading(right, 0, { height, order, path: pathTo(`${order} ${height}`) });
    const values = (...some: LoggedReading[]) => measurement(some).contrasts.map(({ value }) => value);
    expect(values(bed(7, 20), bed(9, 120))).toEqual([expect.closeTo(-Math.SQRT2, 9), expect.closeTo(0, 9)]);
    expect(values(bed(107, 20), bed(109, 120))).toEqual([expect.closeTo(-Math.SQRT2, 9), expect.closeTo(0, 9)]);
    expect(values(bed(7, 20), bed(9, 120, 1))).toEqual([]);
  });
});
