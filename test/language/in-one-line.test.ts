/** What stands beside the text is short. */
import { expect, test } from 'vitest';
import { inOneLine } from '../../src/language/words/in-one-line.ts';

test('parts that do not fit are left out, and a first one that is too long is cut', () => {
  expect(inOneLine(['outside', 'centre 3.9 of 2.5 mm', 'x'.repeat(40), 'far'], ' · ')).toBe(
    'outside · centre 3.9 of 2.5 mm · far',
  );
  expect(inOneLine([`outside ${'x'.repeat(80)}`, 'far'], ' · ')).toMatch(/^outside x+…$/);
});
