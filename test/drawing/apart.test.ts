/** Signs that would lie on one another are told apart, and what a sign is a sign of stays where it is. */
import fc from 'fast-check';
import { renderToString } from 'preact-render-to-string';
import { h } from 'preact';
import { expect, test } from 'vitest';
import { apart } from '../../src/drawing/target/apart.ts';
import { Tape, VERDICT_SIGNS } from '../../src/drawing/index.ts';
import { targetFigure } from '../../src/language/index.ts';
import { drawn, runs } from '../support/amount.ts';
import { after, bookOf } from '../support/workbook.ts';

/** Pixels: of the field, and across a sign. */
const SIZE = 352;
const SIGN = 14;
const MOST_OVERLAP = 4;

test('signs of up to five marks overlap by at most 4 pixels, wherever the marks are', () => {
  let worst = 0;
  const point = fc.record({ x: fc.integer({ min: 150, max: 200 }), y: fc.integer({ min: 150, max: 200 }) });
  fc.assert(
    fc.property(fc.array(point, { minLength: 2, maxLength: 5 }), (points) => {
      const signs = apart(points, SIZE);
      signs.forEach((one, k) =>
        signs.slice(0, k).forEach((other) => {
          const overlap = SIGN - Math.hypot(one.x - other.x, one.y - other.y);
          worst = Math.max(worst, overlap);
          expect(overlap).toBeLessThanOrEqual(MOST_OVERLAP);
        }),
      );
      // Nothing is moved that lies alone, and nothing farther than 24 pixels.
      points.forEach((point, k) => {
        const aside = Math.hypot(point.x - signs[k]!.x, point.y - signs[k]!.y);
        const isAlone = points.every((other, j) => j === k || Math.hypot(other.x - point.x, other.y - point.y) >= 16);
        expect(aside).toBeLessThanOrEqual(24.01);
        if (isAlone) expect(aside).toBe(0);
        else expect(aside).toBeGreaterThanOrEqual(19.99);
      });
    }),
    drawn(2000),
  );
  console.log(`${runs(2000)} groups; overlap at most ${worst.toFixed(1)} px`);
});

test('two marks at one point have two signs, and leaders that end at the point', () => {
  const book = bookOf(
    after('marks: M1\nshots: centre\n', 'marks: M2\nshots: {near: 1 right 1 up, far: 1 right 1 up}\n'),
  );
  const svg = renderToString(h(Tape, { figure: targetFigure(book, 'M2')!, size: SIZE }));
  const signs = [...svg.matchAll(/class="sign" transform="translate\(([\d.]+) ([\d.]+)\)"/g)].map(([, x, y]) => [
    Number(x),
    Number(y),
  ]);
  const leaders = [...svg.matchAll(/class="leader"><path class="ink" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"/g)].map(
    (match) => match.slice(1).map(Number),
  );
  const limit = Number(/class="ink limit"[^>]* r="([\d.]+)"/.exec(svg)![1]);
  expect([signs.length, leaders.length]).toEqual([2, 2]);
  expect(Math.hypot(signs[0]![0]! - signs[1]![0]!, signs[0]![1]! - signs[1]![1]!)).toBeGreaterThan(SIGN);
  for (const [fromX, fromY, x, y] of leaders) {
    expect(signs.some(([a, b]) => a === fromX && b === fromY)).toBe(true);
    // 1 mm is half the limit.
    expect(Math.abs(x! - (SIZE / 2 + limit / 2))).toBeLessThan(0.5);
    expect(Math.abs(y! - (SIZE / 2 - limit / 2))).toBeLessThan(0.5);
  }
});

test('the signs of a verdict differ in shape, not by colour alone', () => {
  const shapes = Object.values(VERDICT_SIGNS).map(({ colour: _, ...shape }) => JSON.stringify(shape));
  expect(new Set(shapes).size).toBe(shapes.length);
});
