/**
 * Colours, as marks in the text: `# ^^^ SCOPE` states that the characters above belong to a scope that begins so, `# <-
 * SCOPE` states it for the line's first character.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../house/layers.ts';
import { loadGrammar, tokenize, type Token } from './tokens.ts';

const grammar = await loadGrammar();
const text = readFileSync(new URL('colours.yaml', import.meta.url), 'utf8');
const lines = text.split('\n');
const tokens = tokenize(grammar, text);

interface Expectation {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly scope: string;
}

const expectations = lines.flatMap((line, index): Expectation[] => {
  const [, first, second] = /^#(?: <- (\S+)|\s*\^+ (\S+))$/.exec(line) ?? [];
  const scope = first ?? second;
  if (scope === undefined) return [];
  const above = lines.slice(0, index).findLastIndex((other) => !/^#(?: <- |\s*\^)/.test(other));
  return [{ line: above, start: first ? 0 : line.indexOf('^'), end: first ? 1 : line.lastIndexOf('^') + 1, scope }];
});

test.each(
  expectations.map(
    (expectation) =>
      [
        `${lines[expectation.line]!.slice(expectation.start, expectation.end)} is ${expectation.scope}`,
        expectation,
      ] as const,
  ),
)('%s', (_, { line, start, end, scope }) => {
  const covering = tokens[line]!.filter(
    (token) => token.start < end && token.start + token.text.length > start && token.text.trim() !== '',
  );
  expect(covering.length).toBeGreaterThan(0);
  for (const token of covering)
    expect(
      token.scopes.some((other) => other.startsWith(scope)),
      `${token.text}: ${token.scopes.join(' ')}`,
    ).toBe(true);
});

const examples = readdirSync(join(ROOT, 'examples')).filter(
  (file) => file.endsWith('.yaml') && !file.startsWith('mistakes'),
);

test.each(examples)('in examples/%s every cell begins with a coloured kind and nothing is called illegal', (file) => {
  const all = tokenize(grammar, readFileSync(join(ROOT, 'examples', file), 'utf8'));
  const has = (line: readonly Token[], scope: string) =>
    line.some(({ scopes }) => scopes.some((other) => other.startsWith(scope)));
  const begins = all.filter((line) => has(line, 'entity.other.document.begin')).length;
  expect(all.filter((line) => has(line, 'keyword.control.kind')).length).toBeGreaterThanOrEqual(begins);
  expect(all.filter((line) => has(line, 'invalid'))).toEqual([]);
});
