/** Frames, places and legs of a layout, and what makes one impossible. */
import { describe, expect, test } from 'vitest';
import {
  DIRECTIONS,
  arriving,
  checkLayout,
  cross,
  directionVector,
  dot,
  legLength,
  length,
  nearestDirection,
  opposite,
  plate,
  position,
  subtract,
  viewer,
  type Element,
  type Layout,
} from '../../src/optics/index.ts';
import { everyLayout, pathOf } from './layouts.ts';
import { ENGRAVER, FAR, mirror } from './machine.ts';

describe('words for directions', () => {
  test.each([
    ['left', 'rear', 'up'],
    ['right', 'front', 'up'],
    ['front', 'left', 'up'],
    ['rear', 'right', 'up'],
    ['down', 'right', 'rear'],
    ['up', 'left', 'rear'],
  ] as const)('who looks along a beam that runs %s has the machine’s %s at the right, %s above', (runs, right, up) => {
    expect(viewer(runs)).toMatchObject({ rightWord: right, upWord: up, along: directionVector(runs) });
    expect(viewer(runs).right).toEqual(directionVector(right));
    expect(viewer(runs).up).toEqual(directionVector(up));
  });

  test('opposites are opposite', () => {
    for (const word of DIRECTIONS) expect(dot(directionVector(word), directionVector(opposite(word)))).toBe(-1);
  });

  test('the nearest word is that of the largest component', () => {
    for (const word of DIRECTIONS) expect(nearestDirection(directionVector(word))).toBe(word);
    expect(nearestDirection([0.4, -3, 2.9])).toBe('front');
    expect(nearestDirection([-1e-9, 0, 0])).toBe('left');
  });

  test('of equal components x wins over y and y over z', () => {
    expect(nearestDirection([-1, 1, 1])).toBe('left');
    expect(nearestDirection([0, -1, 1])).toBe('front');
    expect(nearestDirection([0, 0, 0])).toBe('right');
  });
});

describe('plates', () => {
  test('are square frames that face the beam, with up as high as it can be', () => {
    for (const layout of everyLayout(1)) {
      const { normal, right, up } = plate(layout, 0);
      const out = directionVector(layout.elements[0]?.sends ?? layout.fires);
      expect(dot(normal, directionVector(layout.fires)), pathOf(layout)).toBeCloseTo(-Math.SQRT1_2, 15);
      expect(dot(normal, out)).toBeCloseTo(Math.SQRT1_2, 15);
      expect(length(subtract(right, cross(normal, up)))).toBeLessThan(1e-15);
      expect(length(up)).toBeCloseTo(1, 15);
      expect(up[2]).toBeGreaterThan(0.7);
      expect(right[2]).toBeCloseTo(0, 15);
    }
  });

  test('of a mirror that sends the beam straight on there is none: zero, not NaN', () => {
    expect(plate({ fires: 'left', elements: [mirror('M1', 'left', 90)] }, 0)).toEqual({
      normal: [0, 0, 0],
      right: [0, 0, 0],
      up: [0, 0, 0],
    });
    const back = plate({ fires: 'down', elements: [mirror('M1', 'up', 90)] }, 0);
    expect([...back.normal, ...back.right, ...back.up].every(Number.isFinite)).toBe(true);
  });
});

describe('places', () => {
  test('follow the beam, leg by leg', () => {
    expect(ENGRAVER.elements.map((_, at) => arriving(ENGRAVER, at))).toEqual(['left', 'front', 'right', 'down']);
    const tapes = position(ENGRAVER, FAR).map(({ tape }) => tape);
    expect(tapes).toEqual([
      [-90, 0, 0],
      [-90, -690, 0],
      [820, -690, 0],
      [820, -690, -60],
    ]);
  });

  test('inset is between tape and centre, and the next leg starts at the centre', () => {
    const layout: Layout = { fires: 'right', elements: [mirror('M1', 'front', 100, 8), mirror('M2', 'down', 200, 5)] };
    expect(position(layout, {})).toEqual([
      { tape: [100, 0, 0], centre: [108, 0, 0] },
      { tape: [108, -200, 0], centre: [108, -205, 0] },
    ]);
  });

  test('the beam goes straight on through a lens and a station, whatever their `sends`', () => {
    const nozzle: Element = { name: 'nozzle', kind: 'station', leg: 25, inset: 0 };
    const layout: Layout = {
      ...ENGRAVER,
      elements: [...ENGRAVER.elements.map((e) => ({ sends: 'left' as const, ...e })), nozzle],
    };
    expect(arriving(layout, 4)).toBe('down');
    expect(position(layout, FAR)[4]?.tape).toEqual([820, -690, -85]);
  });

  test('a carriage without a position is at its shortest stop', () => {
    const element = mirror('M2', 'right', { far: 690, near: 130, middle: 400 });
    expect(legLength(element, {})).toBe(130);
    expect(legLength(element, { M2: 512.5 })).toBe(512.5);
    expect(legLength(element, { M3: 512.5 })).toBe(130);
    expect(legLength(mirror('constructor', 'right', { near: 130 }), {})).toBe(130);
  });
});

describe('problems', () => {
  const lens: Element = { name: 'lens', kind: 'lens', leg: 60, inset: 0 };
  const aimless: Element = { name: 'M1', kind: 'mirror', leg: 90, inset: 0 };
  test.each<[string, Layout, readonly string[]]>([
    ['none', ENGRAVER, []],
    ['a mirror that sends nowhere', { fires: 'left', elements: [aimless, lens] }, ['M1 sends missing']],
    ['straight on', { fires: 'left', elements: [mirror('M1', 'left', 90)] }, ['M1 sends along the beam']],
    [
      'back',
      { fires: 'left', elements: [mirror('M1', 'front', 90), mirror('M2', 'rear', 90)] },
      ['M2 sends along the beam'],
    ],
    ['no leg', { fires: 'left', elements: [{ name: 'lens', kind: 'lens', inset: 0 }] }, ['lens leg missing']],
    ['no stop', { fires: 'left', elements: [mirror('M1', 'front', {})] }, ['M1 leg missing']],
    ['a leg of zero', { fires: 'left', elements: [{ ...lens, leg: 0 }] }, ['lens leg not positive']],
    [
      'a stop before the start',
      { fires: 'left', elements: [mirror('M1', 'front', { near: -3, far: 9 })] },
      ['M1 leg not positive'],
    ],
    [
      'two at once',
      { fires: 'up', elements: [mirror('M1', 'down', -1)] },
      ['M1 leg not positive', 'M1 sends along the beam'],
    ],
  ])('%s', (_, layout, problems) => {
    expect(checkLayout(layout).map(({ name, problem }) => `${name} ${problem}`)).toEqual(problems);
  });

  test('every layout that is drawn here has none', () => {
    for (const layout of [1, 2, 3].flatMap(everyLayout)) expect(checkLayout(layout), pathOf(layout)).toEqual([]);
  });
});
