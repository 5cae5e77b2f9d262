/**
 * Every direction of every layout: the product against an independent 3-D library, and the drawing for the handbook.
 *
 * For each layout, at each tape: which machine directions a mark's right and up are, and where one tenth of a turn in
 * of every screw before it sends the mark. Both compute this independently and must agree.
 */
import { describe, expect, test } from 'vitest';
import { add, directionVector, dot, plate, scale, turnEffect } from '../../src/optics/index.ts';
import { drawDirections } from './directions-drawing.ts';
import { byProduct, byReferee, directionsTable } from './directions-table.ts';
import { everyLayout, pathOf } from './layouts.ts';
import { CORNER, ENGRAVER } from './machine.ts';

/** A fact of the trade that no formula of the trace is needed for (common practice, no source). */
test('a corner that comes toward the beam pushes the beam away from that corner', () => {
  for (const layout of everyLayout(1)) {
    const { right, up } = plate(layout, 0);
    for (const { name } of CORNER.screws) {
      const effect = turnEffect(CORNER, name);
      const rises = add(scale(right, effect?.right ?? NaN), scale(up, effect?.up ?? NaN));
      const far = { ...layout, elements: layout.elements.map((e) => (e.kind === 'lens' ? { ...e, leg: 900 } : e)) };
      const move = directionsTable(far, byProduct)[1]?.moves.find(({ screw }) => screw === name);
      const went = add(move?.across ?? [NaN, NaN, NaN], move?.above ?? [NaN, NaN, NaN]);
      expect(dot(went, rises), `${pathOf(layout)}, ${name}`).toBeLessThan(0);
    }
  }
});

test('the library, too, sends M2’s mark of the engraver down for A and to the machine’s right for B', () => {
  const far = {
    ...ENGRAVER,
    elements: ENGRAVER.elements.map((e) => (e.stops ? { ...e, leg: e.stops['far'] ?? NaN } : e)),
  };
  const moves = directionsTable(far, byReferee)[1]?.moves ?? [];
  expect(dot(moves[0]?.above ?? [NaN, NaN, NaN], directionVector('down'))).toBeCloseTo(1.55, 2);
  expect(dot(moves[1]?.across ?? [NaN, NaN, NaN], directionVector('right'))).toBeCloseTo(2.24, 2);
});

describe('the drawing', () => {
  const drawing = drawDirections();

  test('has the six firing directions, each with its plan and its table', () => {
    expect(drawing.match(/^#### (left|right|front|rear|up|down) → /gm)).toHaveLength(6);
    expect(drawing.match(/^ {2}lens /gm)).toHaveLength(6);
    expect(drawing).not.toContain('NaN');
  });

  test('fits 78 columns and ends no line in a space', () => {
    expect(drawing.split('\n').filter((line) => [...line].length > 78)).toEqual([]);
    expect(drawing).not.toMatch(/ $/m);
  });

  test('shows the engraver as it stands', () => {
    const plan = ['M1 <----------- tube', '|', '|', 'v', 'M2 -----------> M3 (x)'];
    expect(drawing).toContain(plan.map((line) => `        ${line}`).join('\n'));
    expect(drawing).toMatch(/M2 +front +left +up +0\.05 right +2\.24 right +2\.20 left\n +1\.55 down +\. +1\.55 up/);
  });
});
