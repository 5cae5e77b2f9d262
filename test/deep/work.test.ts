/** Arithmetic with values of the log: results beside the lines, known names, and no harm by a hostile line. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hintsOf } from '../../src/language/index.ts';
import { after, bookOf } from '../support/workbook.ts';
import { drawn } from '../support/amount.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';

test('any line is read to the end, and every result has a finite value', () => {
  const token = fc.constantFrom(
    'M2.slope.right',
    'M2.centre',
    'M3.plumb',
    'a',
    'sqrt',
    '(',
    ')',
    '+',
    '-',
    '*',
    '/',
    '^',
    '±',
    '3',
    'mm',
    'mrad',
    '.',
    '0',
    '1e308',
    ' ',
    '%',
    'lens.focal',
    'x-y',
    '=',
    '__proto__',
  );
  fc.assert(
    fc.property(fc.array(token, { maxLength: 14 }), (tokens) => {
      const text = after(ROUND, `work: w\na: 2 mm\nb: ${JSON.stringify(tokens.join(' '))}\nc: b * 2\n`);
      const book = bookOf(text);
      book.findings();
      for (const { label } of hintsOf(book, 0, text.length, (kind) => kind === 'results'))
        expect(label).not.toMatch(/NaN|Infinity|undefined/);
    }),
    drawn(300),
  );
});
