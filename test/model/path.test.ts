/** Keys and the paths that lead to them; the escapes are those of RFC 6901, sections 3 to 5. */
import { expect, test } from 'vitest';
import { child, isBelow, isPath, keysOf, parentOf, pathInWords, pathTo, ROOT } from '../../src/model/index.ts';

test.each([
  [[], ''],
  [['shots'], 'shots'],
  [['shots', 0, 'with', 'M2'], 'shots/0/with/M2'],
  [['no further', 'B'], 'no further/B'],
  [['values', 'front/left'], 'values/front~1left'],
  [['values', 'a~b'], 'values/a~0b'],
  [['values', '~1'], 'values/~01'],
  [['values', '/'], 'values/~1'],
] as const)('the path to %j is %s, and leads back', (keys, written) => {
  const path = pathTo(...keys);
  expect(path).toBe(written);
  expect(keysOf(path)).toEqual(keys.map(String));
  expect(isPath(path)).toBe(true);
  expect(pathInWords(path)).toBe(keys.join('/'));
});

test('the parent is one key shorter, and that of the whole cell is itself', () => {
  const shot = pathTo('values', 'front/left');
  expect(parentOf(child(shot, 1))).toBe(shot);
  expect(parentOf(shot)).toBe(pathTo('values'));
  expect(parentOf(pathTo('values'))).toBe(ROOT);
  expect(parentOf(ROOT)).toBe(ROOT);
});

test('below is what a path leads through, key by key', () => {
  const near = pathTo('shots', 'near');
  expect(isBelow(near, pathTo('shots'))).toBe(true);
  expect(isBelow(pathTo('shots', 'near', 0, 'right'), pathTo('shots'))).toBe(true);
  expect(isBelow(near, ROOT)).toBe(true);
  expect(isBelow(near, near)).toBe(false);
  expect(isBelow(ROOT, ROOT)).toBe(false);
  expect(isBelow(pathTo('shots', 'nearer'), near)).toBe(false);
  expect(isBelow(pathTo('shots', 'near/far'), near)).toBe(false);
});

test.each(['/shots', 'shots/', 'shots//0', '/', '~', 'a~2', 'shots/~', 7, null, undefined, {}, ['shots']])(
  'no path: %j',
  (value) => expect(isPath(value)).toBe(false),
);
