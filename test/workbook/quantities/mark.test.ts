/**
 * Marks on tape, as written and in the viewer's frame. To add a case copy a line. Axes: x right, y rear, z up; the
 * viewer looks along the beam, right = beam × up, up = rear on vertical legs.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DIRECTIONS, directionVector, isVertical, opposite, viewer, type Direction } from '../../../src/model/index.ts';
import { readMark, resolveMark } from '../../../src/workbook/quantities/index.ts';
import { fixed, INCHES, MM, problemsOf } from './context.ts';

describe('as written', () => {
  test.each<[string, object]>([
    [
      '1.5 right 2.0 down',
      {
        place: {
          kind: 'parts',
          parts: [
            { length: 1.5, word: 'right', from: 0, to: 9 },
            { length: 2, word: 'down', from: 10, to: 18 },
          ],
        },
      },
    ],
    ['2.0 down', { place: { kind: 'parts', parts: [{ length: 2, word: 'down', from: 0, to: 8 }] } }],
    [
      '1/8 in left 1 mm + 2 mm up',
      {
        place: {
          kind: 'parts',
          parts: [
            { length: 3.175, word: 'left', from: 0, to: 11 },
            { length: 3, word: 'up', from: 12, to: 26 },
          ],
        },
      },
    ],
    ['1.5 ± 0.2 right', { place: { kind: 'parts', parts: [{ length: 1.5, u: 0.2, word: 'right', from: 0, to: 15 }] } }],
    ['2 at 4:30', { place: { kind: 'clock', clock: { length: 2, hour: 4, minute: 30, from: 0, to: 9 } } }],
    [
      '2 mm at 12:00 size 6 mm shape oval',
      { place: { kind: 'clock', clock: { length: 2, hour: 12, minute: 0, from: 0, to: 13 } }, size: 6, shape: 'oval' },
    ],
    ['centre', { place: { kind: 'centre' } }],
    ['none', { place: { kind: 'none' } }],
    [' none ', { place: { kind: 'none' } }],
    ['centre size 6', { place: { kind: 'centre' }, size: 6 }],
    [
      'size 6 1.5 right',
      { place: { kind: 'parts', parts: [{ length: 1.5, word: 'right', from: 7, to: 16 }] }, size: 6 },
    ],
    ['shape crescent size 1/4 in centre', { place: { kind: 'centre' }, size: 6.35, shape: 'crescent' }],
    [
      '0 right 0 up',
      {
        place: {
          kind: 'parts',
          parts: [
            { length: 0, word: 'right', from: 0, to: 7 },
            { length: 0, word: 'up', from: 8, to: 12 },
          ],
        },
      },
    ],
  ])('%s', (text, mark) => {
    const reading = readMark(text, MM);
    expect(problemsOf(reading, text)).toEqual([]);
    expect(reading.value).toEqual(mark);
  });

  test('bare numbers are in the machine’s units', () => {
    expect(readMark('0.1 right size 1/4', INCHES).value).toMatchObject({
      place: { kind: 'parts', parts: [{ length: 2.54 }] },
      size: 6.35,
    });
  });
});

describe('what is no mark', () => {
  test.each<[string, ...string[]]>([
    ['', 'mark.unreadable'],
    ['size 3', 'mark.unreadable'],
    ['2', 'mark.direction'],
    ['1.5 right 2.0', 'mark.direction at ‘2.0’'],
    ['1.5 2.0 down', 'mark.direction at ‘1.5’'],
    ['1.5 centre', 'mark.direction at ‘1.5’'],
    ['right', 'mark.length'],
    ['1 right down', 'mark.length at ‘down’'],
    ['at 3:00', 'mark.length at ‘at’'],
    ['right 1.5 down 2.0', 'mark.order → ‘1.5 right 2.0 down’'],
    ['1.5 rihgt 2 down', 'mark.word at ‘rihgt’ → ‘right’'],
    ['center', 'mark.word → ‘centre’'],
    ['1 sideways', 'mark.word at ‘sideways’'],
    ['1 right 2 left', 'mark.twice at ‘2 left’'],
    ['1 up 2 up', 'mark.twice at ‘2 up’'],
    ['1.5 right, 2.0 down', 'mark.comma at ‘,’ → ‘’'],
    ['1,5 right 2,0 down', 'quantity.decimalComma at ‘1,5’ → ‘1.5’', 'quantity.decimalComma at ‘2,0’ → ‘2.0’'],
    ['-1.5 right', 'quantity.sign → ‘1.5 left’'],
    ['-2 at 3:00', 'quantity.sign at ‘-2 ’'],
    ['2 at 3', 'mark.clock at ‘3’ → ‘3:00’'],
    ['2 at 15:30', 'mark.clock at ‘15:30’ → ‘3:30’'],
    ['2 at 0:30', 'mark.clock at ‘0:30’ → ‘12:30’'],
    ['2 at 3:75', 'mark.clock at ‘3:75’'],
    ['2 at', 'mark.clock at ‘at’'],
    ['centre 1 right', 'mark.mixed'],
    ['1 right 2 at 3:00', 'mark.mixed'],
    ['none centre', 'mark.mixed'],
    ['centre centre', 'mark.mixed'],
    ['1 right shape ovl', 'mark.shape at ‘ovl’ → ‘oval’'],
    ['centre shape', 'mark.shape at ‘shape’'],
    ['centre size 0', 'quantity.sign at ‘0’'],
    ['centre size', 'quantity.unreadable at ‘’'],
    ['1 deg right', 'quantity.dimension at ‘1 deg’'],
    ['1 + right', 'quantity.operand at ‘+’'],
    ['x'.repeat(500), 'quantity.tooLong'],
  ])('%s', (text, ...problems) => expect(problemsOf(readMark(text, MM), text)).toEqual(problems));

  test.each([
    'right 1.5 down 2.0',
    '1.5 right, 2.0 down',
    '1,5 right',
    '1.5 rihgt',
    'center',
    '-1.5 right',
    '2 at 15:30',
  ])('%s is cured by its fix', (text) => {
    const cured = fixed(text, readMark(text, MM));
    expect(problemsOf(readMark(cured, MM), cured)).toEqual([]);
  });
});

describe('in the viewer’s frame', () => {
  const place = (text: string, leg: Direction, side?: 'along beam' | 'against beam') =>
    resolveMark(readMark(text, MM).value!, leg, side);

  test.each<[string, Direction, 'along beam' | 'against beam' | undefined, object]>([
    ['1 right 2 up', 'left', undefined, { right: 1, up: 2 }],
    ['1 left 2 down', 'rear', undefined, { right: -1, up: -2 }],
    ['2 down', 'front', undefined, { up: -2 }],
    ['1 right', 'front', 'along beam', { right: 1 }],
    ['1 right 2 up', 'front', 'against beam', { right: -1, up: 2 }],
    // looking along +x, right is the front; along −x it is the rear
    ['1 front', 'right', undefined, { right: 1 }],
    ['1 rear 2 up', 'right', undefined, { right: -1, up: 2 }],
    ['1 rear', 'left', undefined, { right: 1 }],
    // the machine's words do not depend on the side from which the tape is read
    ['1 rear', 'left', 'against beam', { right: 1 }],
    // down: (−z) × y = +x, so the machine's right is the frame's; up: z × y = −x, so it is not
    ['1 right 2 rear', 'down', undefined, { right: 1, up: 2 }],
    ['1 right 2 front', 'up', undefined, { right: -1, up: -2 }],
    ['0 left', 'down', undefined, { right: 0 }],
    ['centre', 'down', undefined, { right: 0, up: 0 }],
    ['none', 'left', undefined, {}],
    ['1 ± 0.2 right 2 up', 'left', undefined, { right: 1, up: 2, u: { right: 0.2 } }],
    ['2 ± 0.5 at 12:00', 'left', undefined, { right: expect.closeTo(0, 12), up: 2, u: { right: 0.5, up: 0.5 } }],
    ['2 at 3:00', 'left', undefined, { right: 2, up: expect.closeTo(0, 12) }],
    ['2 at 9:00', 'left', 'against beam', { right: 2, up: expect.closeTo(0, 12) }],
    ['2 at 4:30', 'rear', undefined, { right: expect.closeTo(Math.SQRT2, 12), up: expect.closeTo(-Math.SQRT2, 12) }],
    ['2 at 7:30', 'rear', undefined, { right: expect.closeTo(-Math.SQRT2, 12), up: expect.closeTo(-Math.SQRT2, 12) }],
  ])('%s on a leg running %s, seen %s', (text, leg, side, expected) => {
    expect(place(text, leg, side)).toEqual({ value: expected, problems: [] });
  });

  test.each<[string, Direction, 'along beam' | 'against beam' | undefined, string]>([
    ['1 up', 'down', undefined, 'mark.words'],
    ['1 down', 'up', undefined, 'mark.words'],
    ['1 front', 'rear', undefined, 'mark.words'],
    ['1 rear', 'front', undefined, 'mark.words'],
    ['2 at 4:30', 'down', undefined, 'mark.words'],
    ['1 right', 'down', 'against beam', 'mark.seen'],
    ['1 right', 'down', 'along beam', 'mark.seen'],
  ])('%s on a leg running %s, seen %s, is refused', (text, leg, side, code) => {
    expect(problemsOf(place(text, leg, side), text).map((said) => said.split(' ')[0])).toEqual([code]);
  });

  test('two words for one axis', () => {
    const text = '1 right 2 rear';
    expect(problemsOf(place(text, 'left'), text)).toEqual(['mark.twice at ‘2 rear’']);
  });

  test('what a refusal tells', () => {
    expect(place('1 up', 'down').problems[0]?.facts).toEqual({
      word: 'up',
      runs: 'down',
      words: 'left, right, front, rear',
    });
    expect(place('2 at 4:30', 'up').problems[0]?.facts).toMatchObject({ word: '4:30', runs: 'up' });
  });

  test('on every leg right, up and the beam are perpendicular, and right = beam × up', () => {
    for (const leg of DIRECTIONS) {
      const { right, up } = viewer(leg);
      const beam = directionVector(leg);
      const determinant =
        right[0] * (up[1] * -beam[2] - up[2] * -beam[1]) -
        right[1] * (up[0] * -beam[2] - up[2] * -beam[0]) +
        right[2] * (up[0] * -beam[1] - up[1] * -beam[0]);
      expect(determinant).toBe(1); // right, up and the viewer's own direction against the beam are right-handed
      expect(right.some((part) => Object.is(part, -0))).toBe(false);
    }
  });

  test('a machine’s word means the same place in the room whichever way the beam runs', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...DIRECTIONS),
        fc.constantFrom(...DIRECTIONS),
        fc.integer({ min: 1, max: 20 }),
        (leg, word, length) => {
          const isViewers = !isVertical(leg) && word !== 'front' && word !== 'rear' && word !== 'up' && word !== 'down';
          const { value } = place(`${length} ${word}`, leg);
          if (!value || isViewers) return;
          const { right, up } = viewer(leg);
          const room = [0, 1, 2].map((axis) => (value.right ?? 0) * right[axis]! + (value.up ?? 0) * up[axis]! + 0);
          expect(room).toEqual(directionVector(word).map((part) => part * length + 0));
        },
      ),
    );
  });

  test('opposite words, and the other side of the tape, change the sign', () => {
    for (const leg of ['left', 'right', 'front', 'rear'] as const) {
      expect(place('3 right', leg, 'against beam').value).toEqual(place(`3 ${opposite('right')}`, leg).value);
      expect(place('3 up', leg, 'against beam').value).toEqual(place('3 up', leg).value);
    }
  });
});
