/** The outline, folding ranges, selection ranges, and links. */
import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { foldsOf, outlineOf } from '../../src/language/index.ts';
import { bookOf } from '../support/workbook.ts';

const folder = new URL('../../examples/', import.meta.url);
test.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))(
  'in %s every stretch lies in the file, and what a line is chosen by in the line',
  (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const book = bookOf(text);
    for (const { start, end, from, to } of outlineOf(book))
      expect(start <= from && from <= to && to <= end && end <= text.length).toBe(true);
    for (const { start, end } of foldsOf(book)) expect(start < end && end <= text.length).toBe(true);
  },
);
