/** Digits follow the uncertainty: two of it, the value to the same place (JCGM 100:2008, 7.2.6). */
import { expect, test } from 'vitest';
import { valueInDigits } from '../../src/language/words/value-words.ts';

test.each([
  // The mass of JCGM 100, 7.2.2: 100.021 47 g, u 0.35 mg (from memory).
  [100.02147, 0.00035, '100.02147 ± 0.00035'],
  [50.000838, 0.0000268, '50.000838 ± 0.000027'],
  [1690.25, 0.3, '1690.25 ± 0.30'],
  [28.575, 1.27, '28.6 ± 1.3'],
  [7, 0.0996, '7.00 ± 0.10'],
  [1690.25, 123, '1690 ± 120'],
  [1690.25, 996, '1700 ± 1000'],
  [-0.001, 0.3, '0.00 ± 0.30'],
  [0, 0, '0 ± 0'],
  [3e-20, 2e-21, '3.00e-20 ± 2.0e-21'],
  [2e20, 3e18, '2.000e+20 ± 3.0e+18'],
])('%d with u %d: %s', (value, u, words) => expect(valueInDigits(value, u)).toBe(words));

test.each([
  [1690.25, '1690.25'],
  [28.575, '28.575'],
  [50.000623, '50.000623'],
  [1234567.891, '1234567.891'],
  [0.00000123456, '0.00000123456'],
  [1 / 3, '0.333333'],
  [10 / 3, '3.33333'],
  [1e7 / 3, '3333333'],
  [-2 / 3, '-0.666667'],
  [-0, '0'],
  [690, '690'],
  [1.5e-9, '1.5e-9'],
  [1e200, '1e+200'],
])('%d without one: %s', (value, words) => expect(valueInDigits(value)).toBe(words));
