/**
 * The trace against an independent 3-D library, and its promise never to answer with NaN.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  add,
  arriving,
  cross,
  dot,
  hit,
  length,
  nominal,
  position,
  scale,
  subtract,
  trace,
  viewer,
} from '../../src/optics/index.ts';
import { ENGRAVER, FAR, tubeAt } from '../optics/machine.ts';
import { machine } from '../optics/random-machine.ts';
import { refereeTrace } from '../optics/referee.ts';
import { drawn, runs } from '../support/amount.ts';

const AGREES = 1e-9;

describe('against three', () => {
  test('random machines, mounts and settings: every mark to 1e-9 mm, every miss a miss', () => {
    let marks = 0;
    fc.assert(
      fc.property(machine, ({ layout, setting, turns, carriages }) => {
        const theirs = refereeTrace(layout, setting, turns, carriages);
        const ours = trace(layout, setting, carriages);
        expect(ours).toHaveLength(theirs.length);
        ours.forEach((mark, at) => {
          expect(mark === undefined).toBe(theirs[at] === null);
          if (mark === undefined) return;
          marks += 1;
          expect(Math.abs(mark.right - (theirs[at]?.right ?? NaN))).toBeLessThanOrEqual(AGREES);
          expect(Math.abs(mark.up - (theirs[at]?.up ?? NaN))).toBeLessThanOrEqual(AGREES);
        });
      }),
      drawn(400),
    );
    expect(marks).toBeGreaterThan(runs(1000));
  });

  test('a nominal machine marks the centre of every tape', () => {
    fc.assert(
      fc.property(machine, ({ layout, carriages }) => {
        for (const mark of trace(layout, nominal(layout), carriages)) {
          expect(Math.hypot(mark?.right ?? NaN, mark?.up ?? NaN)).toBeLessThanOrEqual(AGREES);
        }
      }),
      drawn(50),
    );
  });
});

describe('a beam that goes astray', () => {
  test('no result is NaN, whatever the slopes and shifts', () => {
    const wild = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    const pose = fc.record({ piston: wild, right: wild, up: wild });
    const tube = fc.record({ right: wild, up: wild, turnRight: wild, turnUp: wild });
    fc.assert(
      fc.property(tube, fc.array(pose, { minLength: 3, maxLength: 3 }), (astray, poses) => {
        const mirrors = poses.map((tilted) => ({ pose: tilted, shift: [0, 0, 0] as const }));
        const setting = { tube: astray, mirrors, apertures: [] };
        for (const mark of trace(ENGRAVER, setting, FAR)) {
          expect(mark === undefined || (Number.isFinite(mark.right) && Number.isFinite(mark.up))).toBe(true);
        }
      }),
      drawn(300),
    );
    expect(trace(ENGRAVER, tubeAt(ENGRAVER, { right: NaN }), FAR)[0]).toBeUndefined();
  });
});

describe('where it stops', () => {
  test('the ray of a hit runs from the last mirror through the mark', () => {
    fc.assert(
      fc.property(machine, ({ layout, setting, carriages }) => {
        const places = position(layout, carriages);
        trace(layout, setting, carriages).forEach((mark, at) => {
          if (mark === undefined) return;
          const { along, right, up } = viewer(arriving(layout, at));
          const aperture = setting.apertures[at] ?? { right: NaN, up: NaN };
          const middle = add(places[at]?.tape ?? [NaN, NaN, NaN], setting.mirrors[at]?.shift ?? [NaN, NaN, NaN]);
          const place = add(add(middle, scale(right, mark.right + aperture.right)), scale(up, mark.up + aperture.up));
          expect(length(mark.ray.direction)).toBeCloseTo(1, 12);
          expect(length(cross(subtract(place, mark.ray.from), mark.ray.direction))).toBeLessThanOrEqual(AGREES);
          expect(dot(mark.ray.direction, along)).toBeGreaterThan(0);
        });
      }),
      drawn(50),
    );
  });

  test('a tape lower down is a longer leg', () => {
    fc.assert(
      fc.property(machine, fc.double({ min: 1, max: 300, noNaN: true }), ({ layout, setting, carriages }, height) => {
        const lens = layout.elements.length - 2;
        const elements = layout.elements.map((e, at) => (at === lens ? { ...e, leg: (e.leg ?? NaN) + height } : e));
        const lower = { ...layout, elements };
        const below = hit(layout, setting, carriages, lens, height);
        const there = hit(lower, setting, carriages, lens);
        expect(below === undefined).toBe(there === undefined);
        expect(Math.abs((below?.right ?? 0) - (there?.right ?? 0))).toBeLessThanOrEqual(AGREES);
        expect(Math.abs((below?.up ?? 0) - (there?.up ?? 0))).toBeLessThanOrEqual(AGREES);
      }),
      drawn(100),
    );
  });
});
