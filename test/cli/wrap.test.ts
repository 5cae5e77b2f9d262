/** Lines of at most 79 columns, as a terminal counts them; nothing but blanks is lost. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { broken, columns, labelled, wrapped } from '../../src/cli/wrap.ts';
import { harmless } from '../../src/model/index.ts';

test.each([
  ['plain', 5],
  ['µm ± °', 6],
  ['e\u0301', 1],
  ['試験', 4],
  ['🔥', 2],
  ['a\u200bb', 2],
])('%s takes %i columns', (text, expected) => {
  expect(columns(text)).toBe(expected);
});

test.each([
  ['words', 'one two', '  ', ['  one two']],
  ['nothing', '', '  1.', ['  1.']],
  ['a word that fits exactly', 'x'.repeat(77), '  ', [`  ${'x'.repeat(77)}`]],
  ['a longer one', 'x'.repeat(78), '  ', [`  ${'x'.repeat(77)}`, '  x']],
  ['wide characters', '試'.repeat(40), '', ['試'.repeat(39), '試']],
  ['a mark without its letter', '\u0613 a', '', ['\u0613 a']],
  ['a pair is never cut in two', `x${'🔥'.repeat(40)}`, '', [`x${'🔥'.repeat(39)}`, '🔥']],
])('%s', (_, text, lead, lines) => {
  expect(wrapped(text, lead)).toEqual(lines);
});

test('beside a label', () => {
  expect(labelled('  why', `${'word '.repeat(15)}end`, 10)).toEqual([
    `  why     ${'word '.repeat(13)}word`,
    '          word end',
  ]);
});

test('any text: short lines that hold it all', () => {
  const text = fc
    .array(fc.oneof(fc.string({ maxLength: 120 }), fc.string({ unit: 'grapheme', maxLength: 60 })), { maxLength: 12 })
    .map((words) => harmless(words.join(' ')));
  fc.assert(
    fc.property(text, (text) => {
      const lines = wrapped(text, '    ');
      expect(lines.filter((line) => columns(line) > 79)).toEqual([]);
      expect(lines.join('').replaceAll(/\s/g, '')).toBe(text.replaceAll(/\s/g, ''));
      expect(broken(text).join('')).toBe(text);
    }),
    { numRuns: 150 },
  );
});
