/**
 * The trace against an independent 3-D library, and its promise never to answer with NaN.
 */
import { describe, expect, test } from 'vitest';
import { nominal, trace, type Layout } from '../../src/optics/index.ts';
import { ENGRAVER, FAR, posed, tubeAt } from './machine.ts';

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
    // The beam meets M1 200 mm to the front of its middle, past M2's near tape, and is sent back to the rear through
    // it.
    const astray = tubeAt(ENGRAVER, { right: -200 });
    const turnedBack = { ...astray, mirrors: posed(ENGRAVER, 0, { piston: 0, right: 1.2, up: 0 }).mirrors };
    expect(trace(ENGRAVER, turnedBack, {}).map((mark) => mark !== undefined)).toEqual([true, false, false, false]);
  });

  test('a mirror pushed past the next tape is a miss, not a mark behind the beam', () => {
    const marks = trace(ENGRAVER, posed(ENGRAVER, 1, { piston: 2000, right: 0, up: 0 }), FAR);
    expect(marks.map((mark) => mark !== undefined)).toEqual([true, true, false, false]);
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

describe('where the trace stops', () => {
  test('upTo is the last element traced', () => {
    expect(trace(ENGRAVER, nominal(ENGRAVER), FAR, 1)).toHaveLength(2);
    expect(trace(ENGRAVER, nominal(ENGRAVER), FAR, -1)).toHaveLength(0);
    expect(trace(ENGRAVER, nominal(ENGRAVER), FAR, 9)).toHaveLength(4);
  });

  test('a lens does not steer, whatever its `sends`', () => {
    const nozzle = { name: 'nozzle', kind: 'station', leg: 25, inset: 0 } as const;
    const lens = { name: 'lens', kind: 'lens', leg: 60, inset: 0, sends: 'left' } as const;
    const layout: Layout = { ...ENGRAVER, elements: [...ENGRAVER.elements.slice(0, 3), lens, nozzle] };
    expect(trace(layout, nominal(layout), FAR)[4]).toMatchObject({
      right: expect.closeTo(0, 9),
      up: expect.closeTo(0, 9),
    });
  });

  test('parts that a setting leaves out are unmoved', () => {
    const bare = { tube: nominal(ENGRAVER).tube, mirrors: [], apertures: [] };
    expect(trace(ENGRAVER, bare, FAR)).toEqual(trace(ENGRAVER, nominal(ENGRAVER), FAR));
  });
});
