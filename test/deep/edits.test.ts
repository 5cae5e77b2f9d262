/**
 * The state of an edited workbook equals that of a freshly opened one, with any results reused from before: in every
 * example.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { freshBook, shown } from '../support/workbook.ts';
import { runs, SEED } from '../support/amount.ts';

/** Replaces the `k`th character that is a digit, a letter or a YAML indicator. */
function edited(text: string, k: number): { text: string; edit: { start: number; end: number; length: number } } {
  const places = [...text.matchAll(/\d|[a-z](?= )|[{},:]|\n/g)];
  const { index: start, 0: old } = places[(k * 7919) % places.length]!;
  const put = /\d/.test(old) ? String((Number(old) + 1 + (k % 8)) % 10) : ['', 'x', old + old, '\n', '\n---\n'][k % 5]!;
  return {
    text: text.slice(0, start) + put + text.slice(start + 1),
    edit: { start, end: start + 1, length: put.length },
  };
}

const folder = new URL('../../examples/', import.meta.url);
test.each(readdirSync(folder).filter((name) => name.endsWith('.yaml')))(
  '%s, one character at a time and back',
  (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    const book = freshBook(text);
    const before = shown(book);
    for (let k = 25 * (SEED - 1); k < 25 * (SEED - 1) + runs(25); k++) {
      const { text: now, edit } = edited(text, k);
      book.change(now, edit);
      book.advance(() => false);
      expect(shown(book), `edit ${k}`).toEqual(shown(freshBook(now)));
      book.change(text, { start: edit.start, end: edit.start + edit.length, length: edit.end - edit.start });
      book.advance(() => false);
      expect(shown(book), `back from ${k}`).toEqual(before);
    }
  },
);
