/** Inlay hints beside the text. Copy three lines to add a case. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { hintsOf, HINT_KINDS } from '../../src/language/index.ts';
import { bookOf } from '../support/workbook.ts';

describe('in every example', () => {
  const folder = new URL('../../examples/', import.meta.url);
  const borrowed = Object.fromEntries(
    readdirSync(new URL('machines/', folder)).map((name) => [
      `machines/${name}`,
      readFileSync(new URL(`machines/${name}`, folder), 'utf8'),
    ]),
  );
  test.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))(
    '%s hints are short, in order and in the requested range',
    (name) => {
      const text = readFileSync(new URL(name, folder), 'utf8');
      const book = bookOf(text, borrowed);
      const all = hintsOf(book, 0, text.length);
      expect(all.length).toBeGreaterThan(0);
      expect(all.filter(({ label }) => label.length >= 60)).toEqual([]);
      expect(all.filter(({ at }, k) => k > 0 && at < all[k - 1]!.at)).toEqual([]);
      const [from, to] = [Math.floor(text.length / 3), Math.floor(text.length / 2)];
      expect(hintsOf(book, from, to)).toEqual(all.filter(({ at }) => from <= at && at <= to));
      for (const kind of HINT_KINDS)
        expect(hintsOf(book, 0, text.length, (one) => one === kind)).toEqual(all.filter((hint) => hint.kind === kind));
    },
  );
});
