/** Fixes, by the resulting text. Copy a line to add a case. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fixAll, fixesAt } from '../../src/language/index.ts';
import { bookOf, changed } from '../support/workbook.ts';

describe('all certain fixes at once', () => {
  const folder = new URL('../../examples/', import.meta.url);
  test.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))(
    'in %s it comes to an end, and mends something or nothing is left to mend',
    (name) => {
      let text = readFileSync(new URL(name, folder), 'utf8');
      const count = () => bookOf(text).findings().length;
      const first = count();
      for (let round = 0; round < 5; round++) text = changed(text, fixAll(bookOf(text)));
      expect(fixAll(bookOf(text))).toEqual([]);
      expect(count()).toBeLessThanOrEqual(first);
    },
  );
});

describe('every fix of every mistake removes its finding', () => {
  const text = readFileSync(new URL('../../examples/mistakes.alignbook.yaml', import.meta.url), 'utf8');
  const book = bookOf(text);
  const fixes = fixesAt(book, 0, text.length).filter(
    ({ isPreferred, finding }) => isPreferred && finding && finding.code !== 'log.unread',
  );
  const count = (of: string, code: string) =>
    bookOf(of)
      .findings()
      .filter((finding) => finding.code === code).length;
  test.each(fixes.map((fix) => [`${fix.finding!.code}: ${fix.title}`, fix] as const))(
    '%s',
    (_, { changes, finding }) => {
      expect(count(changed(text, changes), finding!.code)).toBeLessThan(count(text, finding!.code));
    },
  );
});
