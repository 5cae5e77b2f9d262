/** The trend and its forecast, against draws of the model itself, and by hand. */
import { describe, expect, test } from 'vitest';
import { chanceOutside, trend, type Interval, type ReadMark } from '../../src/history/trend.ts';
import { fromRows, matrix, riceCdf } from '../../src/statistics/index.ts';
import { normalDraws } from '../statistics/random.ts';

const mark = (right: number, up: number, u = 0.25): ReadMark => ({ right, up, u });
const still = (places: number) => matrix(2 * places, 2 * places);
const between = (days: number, from: ReadMark, to: ReadMark): Interval => ({
  days,
  moved: new Map([[0, { from, to }]]),
});

describe('the chance of being outside', () => {
  const agreeing = [between(10, mark(0, 0), mark(1, 0)), between(10, mark(0, 0), mark(1, 0))];

  test('of a mark that was just read with a small uncertainty, is the Rice distribution', () => {
    const known = trend(agreeing, still(1), [mark(2, 0)], 1e7)!;
    expect(chanceOutside(known, still(1), [mark(2, 0)], 2.3, 0)).toBeCloseTo(1 - riceCdf(2.3, 2, 0.25), 4);
  });

  test('grows with the days, and is less for a wider limit', () => {
    const result = trend(agreeing, still(1), [mark(0, 0)])!;
    const chance = (limit: number, days: number) => chanceOutside(result, still(1), [mark(0, 0)], limit, days);
    expect([0, 5, 10, 15, 20, 30].map((days) => chance(2, days))).toEqual(
      [0, 5, 10, 15, 20, 30].map((days) => chance(2, days)).toSorted((a, b) => a - b),
    );
    expect(chance(3, 20)).toBeLessThan(chance(2, 20));
  });

  /**
   * Two places with common drift, three intervals, each starting at the readings that end the one before, the last mark
   * among them.
   */
  const WANDER = fromRows([
    [0.004, 0, 0.007, 0],
    [0, 0.002, 0, 0.003],
    [0.007, 0, 0.015, 0],
    [0, 0.003, 0, 0.006],
  ]);
  const FACTORS = [
    [Math.sqrt(0.004), 0, 0.007 / Math.sqrt(0.004), 0],
    [0, Math.sqrt(0.002), 0, 0.003 / Math.sqrt(0.002)],
    [0, 0, Math.sqrt(0.015 - 0.007 ** 2 / 0.004), 0],
    [0, 0, 0, Math.sqrt(0.006 - 0.003 ** 2 / 0.002)],
  ];
  const DAYS = [20, 45, 30];
  const U = [0.25, 0.3];
  const draw = normalDraws(7);
  const walked = (from: readonly number[], days: number) => {
    const steps = FACTORS.map(() => Math.sqrt(days) * draw());
    return from.map((value, k) => value + FACTORS.reduce((sum, factor, i) => sum + factor[k]! * steps[i]!, 0));
  };
  const read = (truth: readonly number[]) =>
    U.map((u, place) => mark(truth[2 * place]! + u * draw(), truth[2 * place + 1]! + u * draw(), u));
  const logged = (visits: readonly ReadMark[][]): Interval[] =>
    DAYS.map((days, k) => ({
      days,
      moved: new Map(U.map((_, place) => [place, { from: visits[k]![place]!, to: visits[k + 1]![place]! }])),
    }));

  test.each([
    [10, 2],
    [40, 2],
    [90, 3],
    [150, 4],
  ])('after %i days, limit %f mm, is what draws of the model give', (days, limit) => {
    const sessions = [
      [0.2, 0.1, 0.5, -0.2],
      [0.5, 0.1, 0.9, -0.4],
      [0.7, 0, 1.2, 0.1],
      [0.8, 0.3, 1.3, 0.4],
    ].map((truth) => U.map((u, place) => mark(truth[2 * place]!, truth[2 * place + 1]!, u)));
    const last = sessions.at(-1)!;
    const result = trend(logged(sessions), WANDER, last, 4)!;
    expect(result.freedom).toBe(4 + 12 - 4);
    const rounds = 4000;
    let outside = 0;
    for (let k = 0; k < rounds; k++) {
      // A machine without drift, measured in the same way: its reported rate is all error.
      const truths = [[0, 0, 0, 0]];
      for (const span of DAYS) truths.push(walked(truths.at(-1)!, span));
      const visits = truths.map(read);
      const rate = trend(logged(visits), WANDER, visits.at(-1)!, 4)!.rate;
      const then = walked(truths.at(-1)!, days);
      const size = Math.sqrt(
        (result.scale * result.freedom) /
          Array.from({ length: result.freedom }, () => draw() ** 2).reduce((sum, one) => sum + one, 0),
      );
      const off = (place: number, axis: 0 | 1) => {
        const part = axis === 0 ? 'right' : 'up';
        const index = 2 * place + axis;
        const error = visits.at(-1)![place]![part] + days * rate[index]! - then[index]!;
        return last[place]![part] + days * result.rate[index]! - size * error;
      };
      if (U.some((_, place) => Math.hypot(off(place, 0), off(place, 1)) > limit)) outside++;
    }
    const predicted = chanceOutside(result, WANDER, last, limit, days);
    console.log(
      `after ${days} days outside ${limit} mm: ${predicted.toFixed(3)}, drawn ${(outside / rounds).toFixed(3)}`,
    );
    // Three standard deviations for this number of draws, and the error of the sums.
    expect(Math.abs(predicted - outside / rounds)).toBeLessThan(3 * Math.sqrt(0.25 / rounds) + 0.005);
  });
});
