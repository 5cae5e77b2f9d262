/** How thread names may be written; the tabled pitches themselves are in test/published. */
import { expect, test } from 'vitest';
import { isLeftHanded, nutFlats, threadNames, threadPitch } from '../../src/optics/index.ts';

test.each([
  ['M4', 0.7],
  ['m4', 0.7],
  [' M4 ', 0.7],
  ['M4x0.5', 0.5],
  ['M4×0.5', 0.5],
  ['M4 x 0.5', 0.5],
  ['M4x0.7', 0.7],
  ['M6x0.25', 0.25],
  ['M4 LH', 0.7],
  ['M4-LH', 0.7],
  ['M4x0.5 - LH', 0.5],
  ['1/4-20 UNC lh', 1.27],
  ['1/4-20 UNC', 1.27],
  ['1/4-20', 1.27],
  ['1/4-20UNC', 1.27],
  ['1/4 UNC', 1.27],
  ['8-32 UNC', 0.79375],
  ['#8-32 unc', 0.79375],
  ['8-32', 0.79375],
  ['1/4-80 UNS', 0.3175],
  ['1/4-80', 0.3175],
])('%s advances %f mm a turn', (name, pitch) => expect(threadPitch(name)).toBeCloseTo(pitch, 12));

test.each([
  '',
  'M',
  'M7.3',
  'M4x7',
  'M4x0',
  'M4x',
  '1/4',
  '8',
  '1/4-28 UNC',
  '1/4-0',
  '99 UNC',
  'UNC',
  'constructor',
  'M4 0.5',
  'LH',
  'M4LH',
  'M4 LH LH',
])('%j is no thread that can be known', (name) => {
  expect(threadPitch(name)).toBeUndefined();
  expect(nutFlats(name)).toBeUndefined();
});

test('every suggested name can be read, and none is offered twice', () => {
  const pitches = threadNames().map(threadPitch);
  expect(pitches.every((pitch) => pitch !== undefined && pitch > 0.2 && pitch < 2)).toBe(true);
  expect(new Set(threadNames()).size).toBe(threadNames().length);
  expect(threadNames()).toContain('M4x0.5');
});

test('a name gives the hand of its thread; the nut is the same', () => {
  expect(['M4 LH', 'm4-lh', '8-32 UNC LH', 'M4', '8-32 UNC'].map(isLeftHanded)).toEqual([
    true,
    true,
    true,
    false,
    false,
  ]);
  expect(nutFlats('M4x0.5 LH')).toBe(7);
});

test('a fine thread takes the nut of its size; inch threads have none in ISO 4032', () => {
  expect(nutFlats('M4x0.5')).toBe(7);
  expect(nutFlats('8-32 UNC')).toBeUndefined();
});
