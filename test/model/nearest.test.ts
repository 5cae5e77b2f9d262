/** The suggestion for a mistyped word. */
import { expect, test } from 'vitest';
import { nearest } from '../../src/model/index.ts';

const WORDS = ['left', 'right', 'front', 'rear', 'up', 'down', 'centre', 'constructor'];

test.each([
  ['rihgt', 'right'],
  ['rigt', 'right'],
  ['Right', 'right'],
  ['riight', 'right'],
  ['center', 'centre'],
  ['UP', 'up'],
  ['consructor', 'constructor'],
  ['ux', undefined],
  ['sideways', undefined],
  ['', undefined],
  ['x'.repeat(100_000), undefined],
])('%s', (word, suggestion) => expect(nearest(word, WORDS)).toBe(suggestion));

test('of equals the first', () => expect(nearest('M3', ['M1', 'M2'])).toBeUndefined());
test('of equally near words the first', () => expect(nearest('near1', ['near2', 'near3'])).toBe('near2'));
