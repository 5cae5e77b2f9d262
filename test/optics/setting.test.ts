/** The tube as a rigid rod in two holders: its moves, from facts about rods. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { tubeEndShift, tubeShift, type Tube, type Vector } from '../../src/optics/index.ts';
import { everyLayout } from './layouts.ts';
import { ENGRAVER } from './machine.ts';

const HOLDERS = { exit: 120, tail: 980 };
const moved = (end: 'exit' | 'tail', shift: Vector): Tube => {
  const tube = tubeEndShift(ENGRAVER, HOLDERS, end, shift);
  if (tube === undefined) throw new Error('these holders are apart');
  return tube;
};

/** The move of the rod at this distance back from its exit. */
const at = (tube: Tube, back: number): readonly [right: number, up: number] => [
  tube.right - tube.turnRight * back,
  tube.up - tube.turnUp * back,
];

test('the whole tube moves in the machine’s directions, seen along its beam', () => {
  expect(tubeShift(ENGRAVER, [0, 1, 0])).toEqual({ right: 1, up: 0 });
  expect(tubeShift(ENGRAVER, [7, 0, -2])).toEqual({ right: 0, up: -2 });
});

test('one end moved: that holder goes the whole way, the other stays', () => {
  const near = moved('exit', [0, 1, -0.5]);
  expect(at(near, 120)).toEqual([expect.closeTo(1, 12), expect.closeTo(-0.5, 12)]);
  expect(at(near, 980)).toEqual([expect.closeTo(0, 12), expect.closeTo(0, 12)]);
  const tail = moved('tail', [0, 1, -0.5]);
  expect(at(tail, 120)).toEqual([expect.closeTo(0, 12), expect.closeTo(0, 12)]);
  expect(at(tail, 980)).toEqual([expect.closeTo(1, 12), expect.closeTo(-0.5, 12)]);
});

test('raising the exit end points the beam up; raising the tail points it down and lowers the exit', () => {
  expect(moved('exit', [0, 0, 1])).toMatchObject({
    up: expect.closeTo(980 / 860, 12),
    turnUp: expect.closeTo(1 / 860, 12),
  });
  expect(moved('tail', [0, 0, 1])).toMatchObject({
    up: expect.closeTo(-120 / 860, 12),
    turnUp: expect.closeTo(-1 / 860, 12),
  });
});

test('both ends moved alike are the whole tube moved, in every firing direction', () => {
  const component = fc.double({ min: -5, max: 5, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(component, component, component), fc.constantFrom(...everyLayout(0)), (shift, layout) => {
      const [exit, tail] = (['exit', 'tail'] as const).map((end) => tubeEndShift(layout, HOLDERS, end, shift));
      const whole = tubeShift(layout, shift);
      expect((exit?.right ?? NaN) + (tail?.right ?? NaN)).toBeCloseTo(whole.right, 12);
      expect((exit?.up ?? NaN) + (tail?.up ?? NaN)).toBeCloseTo(whole.up, 12);
      expect((exit?.turnRight ?? NaN) + (tail?.turnRight ?? NaN)).toBeCloseTo(0, 15);
    }),
    { seed: 20260314 },
  );
});

test('two holders at one place turn nothing', () => {
  expect(tubeEndShift(ENGRAVER, { exit: 300, tail: 300 }, 'exit', [0, 0, 1])).toBeUndefined();
});
