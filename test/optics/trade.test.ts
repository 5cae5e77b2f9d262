/**
 * Common knowledge of technicians about mirrors, compared with the exact trace (common practice, no source).
 *
 * Each fact is stated for every way a mirror can stand, not only for the engraver's.
 */
import { describe, expect, test } from 'vitest';
import { addPose, directionVector, dot, length, nominal, plate } from '../../src/optics/index.ts';
import { scalePose, subtract, trace, turnEffect } from '../../src/optics/index.ts';
import type { Layout, Mount, Pose, Setting, Vector } from '../../src/optics/index.ts';
import { everyLayout, pathOf } from './layouts.ts';
import { CORNER, ENGRAVER, FAR, posed, shifted, tubeAt, turned } from './machine.ts';

const ONE_MIRROR = everyLayout(1);
const TILT: Pose = { piston: 0, right: 0.004, up: -0.003 };

/** The mark on the lens tape of a one-mirror layout with a last leg of this length. */
function markAfter(layout: Layout, leg: number, pose: Pose): { right: number; up: number; direction: Vector } {
  const elements = layout.elements.map((element) => (element.kind === 'lens' ? { ...element, leg } : element));
  const mark = trace({ ...layout, elements }, posed(layout, 0, pose), {})[1];
  if (mark === undefined) throw new Error('the mark is missing');
  return { right: mark.right, up: mark.up, direction: mark.ray.direction };
}

describe('a mirror’s screws', () => {
  test('steer the beam that leaves it, never where the beam lands on it: exactly not at all', () => {
    for (const layout of everyLayout(3).filter((_, at) => at % 7 === 0)) {
      const untouched = trace(layout, nominal(layout), {});
      for (const index of [0, 1, 2]) {
        const marks = trace(layout, posed(layout, index, turned(layout, index, { A: 0.7, B: -0.4, C: 1.1 })), {});
        expect(marks.slice(0, index + 1)).toEqual(untouched.slice(0, index + 1));
        expect(marks[index + 1], pathOf(layout)).not.toEqual(untouched[index + 1]);
      }
    }
  });

  test('move near and far the same way, in the ratio of the legs', () => {
    for (const layout of ONE_MIRROR) {
      const [near, far] = [markAfter(layout, 130, TILT), markAfter(layout, 690, TILT)];
      expect(far.right / near.right, pathOf(layout)).toBeCloseTo(690 / 130, 9);
      expect(far.up / near.up, pathOf(layout)).toBeCloseTo(690 / 130, 9);
    }
  });

  test('with piston, near and far differ by the slope times the way between', () => {
    for (const layout of ONE_MIRROR) {
      const pose = turned(layout, 0, { B: 0.25 });
      const [near, middle, far] = [130, 410, 690].map((leg) => markAfter(layout, leg, pose));
      expect((middle?.right ?? NaN) * 2).toBeCloseTo((near?.right ?? NaN) + (far?.right ?? NaN), 9);
      expect((middle?.up ?? NaN) * 2).toBeCloseTo((near?.up ?? NaN) + (far?.up ?? NaN), 9);
    }
  });

  test('turned all alike push the beam aside by √2 of the advance and do not steer it', () => {
    const advance = 0.3 * 0.7;
    for (const layout of ONE_MIRROR) {
      const mark = markAfter(layout, 500, turned(layout, 0, { A: 0.3, B: 0.3, C: 0.3 }));
      const sends = directionVector(layout.elements[0]?.sends ?? 'left');
      expect(length(subtract(mark.direction, sends)), pathOf(layout)).toBeLessThan(1e-14);
      expect(Math.hypot(mark.right, mark.up), pathOf(layout)).toBeCloseTo(Math.SQRT2 * advance, 12);
    }
  });

  test('that turn IN away from the beam do the opposite', () => {
    const away: Mount = { screws: CORNER.screws.map((screw) => ({ ...screw, in: -1 })) };
    for (const { name } of CORNER.screws) {
      const toward = turnEffect(CORNER, name);
      expect(toward).toBeDefined();
      expect(turnEffect(away, name)).toEqual(scalePose(toward as Pose, -1));
    }
    // Backwards is the exact opposite as a pose; the mark differs only by the curvature: 1 part in 1000 at 2 mrad.
    for (const layout of ONE_MIRROR) {
      const pose = turned(layout, 0, { A: 0.1, B: -0.05 });
      const [one, other] = [markAfter(layout, 690, pose), markAfter(layout, 690, scalePose(pose, -1))];
      expect(Math.hypot(one.right + other.right, one.up + other.up)).toBeLessThan(
        0.003 * Math.hypot(one.right, one.up),
      );
    }
  });

  test('turned and turned back leave no trace', () => {
    const there = turned(ENGRAVER, 0, { A: 0.25, B: -0.5 });
    expect(addPose(there, turned(ENGRAVER, 0, { A: -0.25, B: 0.5 }))).toEqual({ piston: 0, right: 0, up: 0 });
  });

  test('on the corner square: B, level with C, tilts about the upright line through A and C and steers level', () => {
    const marks = trace(ENGRAVER, posed(ENGRAVER, 0, turned(ENGRAVER, 0, { B: 0.1 })), FAR);
    expect(Math.abs(marks[1]?.right ?? 0)).toBeGreaterThan(2);
    expect(marks[1]?.up).toBeCloseTo(0, 12);
  });
});

describe('blocks and tube', () => {
  test('a block slid in the plane of its own mirror moves only its own tape', () => {
    for (const layout of ONE_MIRROR) {
      const { up } = plate(layout, 0);
      const marks = trace(layout, shifted(layout, 0, up), {});
      expect(Math.hypot(marks[1]?.right ?? NaN, marks[1]?.up ?? NaN), pathOf(layout)).toBeLessThan(1e-12);
      expect(Math.hypot(marks[0]?.right ?? NaN, marks[0]?.up ?? NaN), pathOf(layout)).toBeGreaterThan(0.5);
    }
  });

  test('a block pushed back along its normal is piston: the beam shifts by √2 of the way', () => {
    for (const layout of ONE_MIRROR) {
      const marks = trace(layout, shifted(layout, 0, plate(layout, 0).normal), {});
      expect(Math.hypot(marks[1]?.right ?? NaN, marks[1]?.up ?? NaN), pathOf(layout)).toBeCloseTo(Math.SQRT2, 12);
    }
  });

  test('a mark is read from the real aperture: block up is mark down, aperture up is mark down', () => {
    const raised = trace(ENGRAVER, shifted(ENGRAVER, 0, [0, 0, 1]), FAR);
    expect(raised[0]?.up).toBeCloseTo(-1, 12);
    const apertures = ENGRAVER.elements.map(() => ({ right: 0.5, up: 1 }));
    const drilled = trace(ENGRAVER, { ...nominal(ENGRAVER), apertures }, FAR);
    for (const mark of drilled) {
      expect(mark?.right).toBeCloseTo(-0.5, 12);
      expect(mark?.up).toBeCloseTo(-1, 12);
    }
  });

  test('a tube moved sideways shifts near and far alike; a tube turned does not', () => {
    const at = (setting: Setting, stop: number): number => trace(ENGRAVER, setting, { M2: stop })[1]?.up ?? NaN;
    const moved = tubeAt(ENGRAVER, { up: 1 });
    expect(at(moved, 690)).toBeCloseTo(at(moved, 130), 12);
    const aimed = tubeAt(ENGRAVER, { turnUp: 0.002 });
    expect(at(aimed, 690) - at(aimed, 130)).toBeCloseTo(0.002 * 560, 12);
  });

  test('the beam goes on at right angles to its mirror, whichever way it came', () => {
    for (const layout of everyLayout(2)) {
      const marks = trace(layout, nominal(layout), {});
      marks.forEach((mark, at) => {
        const expected = at === 0 ? layout.fires : (layout.elements[at - 1]?.sends ?? layout.fires);
        expect(dot(mark?.ray.direction ?? [0, 0, 0], directionVector(expected)), pathOf(layout)).toBeCloseTo(1, 14);
      });
    }
  });
});
