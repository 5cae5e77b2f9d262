/** A mount is the plane through three tips: checked by putting the tips back into the plane. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placesProblem, seenFromBehind, turnEffect, type Mount, type Pose } from '../../src/optics/index.ts';
import { CORNER } from './machine.ts';
import { mount } from './random-machine.ts';

const heightAt = (pose: Pose, { right, up }: { right: number; up: number }): number =>
  pose.piston + pose.right * right + pose.up * up;

test('one turn raises its own tip by the pitch and leaves the other two where they were', () => {
  fc.assert(
    fc.property(mount, (drawn) => {
      for (const { name } of drawn.screws) {
        const pose = turnEffect(drawn, name);
        if (pose === undefined) throw new Error('a stiff mount has an effect');
        for (const tip of drawn.screws) {
          expect(heightAt(pose, tip)).toBeCloseTo(tip.name === name ? tip.pitch * tip.in : 0, 10);
        }
        if (drawn.pivot) expect(heightAt(pose, drawn.pivot)).toBeCloseTo(0, 10);
      }
    }),
    { seed: 20260314, numRuns: 200 },
  );
});

test('the order in which tips are listed does not matter', () => {
  const backwards: Mount = { screws: [...CORNER.screws].reverse() };
  for (const { name } of CORNER.screws) {
    const [one, other] = [turnEffect(CORNER, name), turnEffect(backwards, name)];
    expect(other?.piston).toBeCloseTo(one?.piston ?? NaN, 14);
    expect(other?.right).toBeCloseTo(one?.right ?? NaN, 14);
    expect(other?.up).toBeCloseTo(one?.up ?? NaN, 14);
  }
});

describe('places that determine no pose', () => {
  const [a, b, c] = CORNER.screws as [Mount['screws'][0], Mount['screws'][0], Mount['screws'][0]];
  const pivot = { right: 0, up: 22 };
  const inLine = [a, { ...b, right: -22, up: 5 }, c];
  test.each<[string, Mount, ReturnType<typeof placesProblem>]>([
    ['three screws', CORNER, undefined],
    ['a pivot and two screws', { screws: [b, c], pivot }, undefined],
    ['no screw', { screws: [] }, 'too few'],
    ['two screws', { screws: [a, b] }, 'too few'],
    ['a pivot and one screw', { screws: [a], pivot }, 'too few'],
    ['four screws', { screws: [...CORNER.screws, { ...a, name: 'D', right: 22 }] }, 'too many'],
    ['a pivot and three screws', { screws: CORNER.screws, pivot }, 'too many'],
    ['one name twice', { screws: [a, b, { ...c, name: 'A' }] }, 'same name'],
    ['three tips in a line', { screws: inLine }, 'in line'],
    ['nearly in a line', { screws: [a, { ...b, right: -21.5, up: 5 }, c] }, 'in line'],
    ['two tips at one place', { screws: [a, { ...a, name: 'B' }, c] }, 'in line'],
    ['all tips at one place', { screws: [a, { ...a, name: 'B' }, { ...a, name: 'C' }] }, 'in line'],
  ])('%s', (_, drawn, problem) => {
    expect(placesProblem(drawn)).toBe(problem);
    expect(turnEffect(drawn, 'A') === undefined).toBe(problem !== undefined || !drawn.screws.includes(a));
  });

  test('a screw that the mount does not have', () => expect(turnEffect(CORNER, 'D')).toBeUndefined());
});

test('heads on the beam side: right and left swap, nothing else, and twice is back', () => {
  const places = [
    { name: 'A', right: -22, up: 5 },
    { name: 'B', right: 0, up: 9 },
  ];
  expect(seenFromBehind(places, 'behind')).toEqual(places);
  expect(seenFromBehind(places, 'beam side')).toEqual([
    { name: 'A', right: 22, up: 5 },
    { name: 'B', right: 0, up: 9 },
  ]);
  expect(seenFromBehind(seenFromBehind(places, 'beam side'), 'beam side')).toEqual(places);
});
