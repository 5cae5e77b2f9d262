/**
 * The signs, by hand: which way each mark moves on one whole machine.
 *
 * Source: worked by hand for this project, from the law of reflection and the plane through three tips, for the bench
 * engraver of the format's example at its far stops (M2 690 mm, M3 910 mm). One tenth of a turn IN; viewer's right and
 * up, mm, given to two decimals, so they are held to half of the last one.
 */
import { describe, expect, test } from 'vitest';
import { add, directionVector, dot, scale, subtract, trace, tubeShift, viewer } from '../../src/optics/index.ts';
import type { Direction, Hit, Setting } from '../../src/optics/index.ts';
import { ENGRAVER, FAR, posed, tubeAt, turned } from '../optics/machine.ts';

const LAST_DIGIT = 0.005;

function marks(setting: Setting, carriages = FAR): readonly Hit[] {
  return trace(ENGRAVER, setting, carriages).map((hit) => {
    if (hit === undefined) throw new Error('the beam missed a tape');
    return hit;
  });
}

function expectMark(mark: Hit | undefined, right: number, up: number, within = LAST_DIGIT): void {
  expect(Math.abs((mark?.right ?? NaN) - right)).toBeLessThanOrEqual(within);
  expect(Math.abs((mark?.up ?? NaN) - up)).toBeLessThanOrEqual(within);
}

describe('one tenth of a turn in', () => {
  test.each([
    ['M2', 'A', -0.05, -1.55],
    ['M2', 'B', -2.24, 0],
    ['M2', 'C', 2.2, 1.55],
    ['M3', 'A', -0.05, -2.05],
    ['M3', 'B', -2.94, 0],
    ['M3', 'C', 2.9, 2.04],
    ['lens', 'A', 0.14, 0],
    ['lens', 'B', -0.05, -0.13],
    ['lens', 'C', -0.19, 0.14],
  ])('on %s, screw %s of the mirror before moves the mark to %f right, %f up', (tape, screw, right, up) => {
    const at = ENGRAVER.elements.findIndex(({ name }) => name === tape);
    const mark = marks(posed(ENGRAVER, at - 1, turned(ENGRAVER, at - 1, { [screw]: 0.1 })))[at];
    expectMark(mark, right, up);
  });

  test.each<[screw: string, mirror: string, index: number, runs: Direction, word: Direction]>([
    ['A', 'M1', 0, 'front', 'down'],
    ['B', 'M1', 0, 'front', 'right'],
    ['B', 'M2', 1, 'right', 'rear'],
  ])('%s of %s sends the next mark to the machine’s own side', (screw, _, index, runs, word) => {
    const mark = marks(posed(ENGRAVER, index, turned(ENGRAVER, index, { [screw]: 0.1 })))[index + 1];
    const { right, up } = viewer(runs);
    const went = add(scale(right, mark?.right ?? NaN), scale(up, mark?.up ?? NaN));
    expect(dot(went, directionVector(word))).toBeGreaterThan(1.5);
  });
});

test.each([
  ['M1', 'rear', 'up'],
  ['M2', 'left', 'up'],
  ['M3', 'front', 'up'],
  ['lens', 'right', 'rear'],
] as const)('on %s a mark’s right is the machine’s %s and its up the machine’s %s', (name, right, up) => {
  const runs = { M1: 'left', M2: 'front', M3: 'right', lens: 'down' } as const;
  expect(viewer(runs[name])).toMatchObject({ rightWord: right, upWord: up });
});

describe('tube moved by 1 mm', () => {
  test('up: 1 up at M1, M2 and M3, and 1 left at the lens', () => {
    const result = marks(tubeAt(ENGRAVER, tubeShift(ENGRAVER, [0, 0, 1])));
    [
      [0, 1],
      [0, 1],
      [0, 1],
      [-1, 0],
    ].forEach(([right = NaN, up = NaN], at) => expectMark(result[at], right, up, 1e-12));
  });

  test('rear: right at M1, left at M2, right at M3, front at the lens', () => {
    const result = marks(tubeAt(ENGRAVER, tubeShift(ENGRAVER, [0, 1, 0])));
    [
      [1, 0],
      [-1, 0],
      [1, 0],
      [0, -1],
    ].forEach(([right = NaN, up = NaN], at) => expectMark(result[at], right, up, 1e-12));
  });
});

test('M1’s B in 1/4 moves M2’s marks by −1.16 near and −5.61 far', () => {
  const setting = posed(ENGRAVER, 0, turned(ENGRAVER, 0, { B: 0.25 }));
  expectMark(marks(setting, { ...FAR, M2: 130 })[1], -1.16, 0);
  expectMark(marks(setting)[1], -5.61, 0);
});

describe('steering by one tenth of a turn, tips 44 mm apart, pitch 0.7 mm', () => {
  const steered = (turns: Readonly<Record<string, number>>): { across: number; up: number; all: number } => {
    const direction = marks(posed(ENGRAVER, 0, turned(ENGRAVER, 0, turns)))[1]?.ray.direction ?? [NaN, NaN, NaN];
    const [x, , z] = subtract(direction, directionVector('front'));
    return { across: x * 1000, up: z * 1000, all: 1000 * Math.acos(-direction[1]) };
  };

  test('B: 3.18 mrad, in the plane of incidence', () => {
    expect(steered({ B: 0.1 }).across).toBeCloseTo(3.18, 2);
    expect(steered({ B: 0.1 }).up).toBeCloseTo(0, 12);
  });

  test('A: 2.25 mrad, across it', () => {
    expect(steered({ A: 0.1 }).up).toBeCloseTo(-2.25, 2);
    expect(Math.abs(steered({ A: 0.1 }).across)).toBeLessThan(0.01);
  });

  test('all three: no steering, and a parallel shift of 0.099 mm', () => {
    const all = { A: 0.1, B: 0.1, C: 0.1 };
    expect(steered(all).across).toBeCloseTo(0, 12);
    expect(steered(all).up).toBeCloseTo(0, 12);
    const mark = marks(posed(ENGRAVER, 0, turned(ENGRAVER, 0, all)))[1];
    expect(Math.hypot(mark?.right ?? NaN, mark?.up ?? NaN)).toBeCloseTo(0.099, 3);
  });
});
