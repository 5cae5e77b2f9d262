/**
 * The trace against an independent 3-D library, and its promise never to answer with NaN.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { add, arriving, cross, dot, hit, length, nominal, position, scale } from '../../src/optics/index.ts';
import { subtract, trace, viewer, type Layout } from '../../src/optics/index.ts';
import { ENGRAVER, FAR, posed, tubeAt } from './machine.ts';
import { machine } from './random-machine.ts';
import { refereeTrace } from './referee.ts';

const SEED = { seed: 20260314 };
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
      { ...SEED, numRuns: 400 },
    );
    expect(marks).toBeGreaterThan(1000);
  });

  test('a nominal machine marks the middle of every tape', () => {
    fc.assert(
      fc.property(machine, ({ layout, carriages }) => {
        for (const mark of trace(layout, nominal(layout), carriages)) {
          expect(Math.hypot(mark?.right ?? NaN, mark?.up ?? NaN)).toBeLessThanOrEqual(AGREES);
        }
      }),
      { ...SEED, numRuns: 50 },
    );
  });
});

describe('a beam that goes astray', () => {
  const lost = [undefined, undefined];

  test('a mirror turned past edge-on shows its back and sends nothing on', () => {
    expect(trace(ENGRAVER, posed(ENGRAVER, 1, { piston: 0, right: -1.01, up: 0 }), FAR).slice(2)).toEqual(lost);
  });

  test('a mirror turned square to the beam, or past it, sends it back and never to the next tape', () => {
    expect(trace(ENGRAVER, posed(ENGRAVER, 1, { piston: 0, right: 1, up: 0 }), FAR).slice(2)).toEqual(lost);
    expect(trace(ENGRAVER, posed(ENGRAVER, 1, { piston: 0, right: 1.01, up: 0 }), FAR).slice(2)).toEqual(lost);
  });

  test('a tube that points across its own axis is a miss from the first tape on', () => {
    expect(trace(ENGRAVER, tubeAt(ENGRAVER, { turnRight: 1e9 }), FAR)).toEqual([undefined, undefined, ...lost]);
  });

  test('a tape is marked from its burnt side only: not by a beam that comes back from beyond it', () => {
    // The beam meets M1 200 mm to the front of its middle, past M2's near tape, and is sent back to the rear through it.
    const astray = tubeAt(ENGRAVER, { right: -200 });
    const turnedBack = { ...astray, mirrors: posed(ENGRAVER, 0, { piston: 0, right: 1.2, up: 0 }).mirrors };
    expect(trace(ENGRAVER, turnedBack, {}).map((mark) => mark !== undefined)).toEqual([true, false, false, false]);
  });

  test('a mirror pushed past the next tape is a miss, not a mark behind the beam', () => {
    const marks = trace(ENGRAVER, posed(ENGRAVER, 1, { piston: 2000, right: 0, up: 0 }), FAR);
    expect(marks.map((mark) => mark !== undefined)).toEqual([true, true, false, false]);
  });

  test('NaN never comes out, whatever slopes and shifts go in', () => {
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
      { ...SEED, numRuns: 300 },
    );
    expect(trace(ENGRAVER, tubeAt(ENGRAVER, { right: NaN }), FAR)[0]).toBeUndefined();
  });

  test('a layout that cannot be is a miss beyond its fault', () => {
    for (const sends of ['front', 'rear'] as const) {
      const elements = ENGRAVER.elements.map((e) => (e.name === 'M2' ? { ...e, sends } : e));
      const marks = trace({ ...ENGRAVER, elements }, posed(ENGRAVER, 1, { piston: 0, right: 0.1, up: 0.1 }), FAR);
      expect(marks.slice(0, 2).includes(undefined)).toBe(false);
      expect(marks.every((mark) => mark === undefined || Number.isFinite(mark.right + mark.up))).toBe(true);
      if (sends === 'front') expect(marks.slice(2)).toEqual(lost);
    }
  });
});

describe('where it stops and what it tells', () => {
  test('upTo is the last element traced', () => {
    expect(trace(ENGRAVER, nominal(ENGRAVER), FAR, 1)).toHaveLength(2);
    expect(trace(ENGRAVER, nominal(ENGRAVER), FAR, -1)).toHaveLength(0);
    expect(trace(ENGRAVER, nominal(ENGRAVER), FAR, 9)).toHaveLength(4);
  });

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
      { ...SEED, numRuns: 50 },
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
      { ...SEED, numRuns: 100 },
    );
  });

  test('a lens does not steer, whatever it is said to send', () => {
    const nozzle = { name: 'nozzle', kind: 'station', leg: 25, inset: 0 } as const;
    const lens = { name: 'lens', kind: 'lens', leg: 60, inset: 0, sends: 'left' } as const;
    const layout: Layout = { ...ENGRAVER, elements: [...ENGRAVER.elements.slice(0, 3), lens, nozzle] };
    expect(trace(layout, nominal(layout), FAR)[4]).toMatchObject({
      right: expect.closeTo(0, 9),
      up: expect.closeTo(0, 9),
    });
  });

  test('what a setting leaves out is unmoved', () => {
    const bare = { tube: nominal(ENGRAVER).tube, mirrors: [], apertures: [] };
    expect(trace(ENGRAVER, bare, FAR)).toEqual(trace(ENGRAVER, nominal(ENGRAVER), FAR));
  });
});
