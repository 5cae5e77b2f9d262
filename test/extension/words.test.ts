/** Words for people stand where translators find them (`UPDATE=1` writes the bundle anew). */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { QUESTIONS } from '../../src/create/index.ts';
import { ROOT } from '../house/layers.ts';

const BUNDLE = join(ROOT, 'shared', 'l10n', 'bundle.l10n.json');
const SOURCES = join(ROOT, 'src', 'extension');
const code = readdirSync(SOURCES, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => readFileSync(join(SOURCES, file), 'utf8'))
  .join('\n');
const literal = [...code.matchAll(/\bl10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g)].map(([, words]) => words!);
/** The words of questions, which the command line asks as well. */
const asked = QUESTIONS.flatMap(({ words, fault, choices = [] }) => [
  words({})[0],
  ...(choices.length > 0 ? [] : [fault({})[0]]),
  ...choices.flatMap(({ label, detail }) => [label, ...(detail === undefined ? [] : [detail])]),
]);
const used = [...literal, ...asked];

test('the bundle holds every string that the extension shows, and no other', () => {
  const expected = Object.fromEntries([...new Set(used)].sort().map((words) => [words, words]));
  if (process.env['UPDATE'] !== undefined) writeFileSync(BUNDLE, `${JSON.stringify(expected, undefined, 2)}\n`);
  else expect(JSON.parse(readFileSync(BUNDLE, 'utf8'))).toEqual(expected);
  // One call translates the words of questions.
  expect(literal.length + 1).toBe(code.match(/\bl10n\.t\(/g)!.length);
  expect(literal.length).toBeGreaterThan(20);
  expect(asked.length).toBeGreaterThan(20);
});

test('nothing is shown that has not been through the bundle', () => {
  const bare = [
    ...code.matchAll(/\b(?:show\w+Message|appendText|placeHolder:|title:|label:|detail:)\s*\(?\s*['`]([A-Z][^'`]*)/g),
  ].map(([, words]) => words);
  expect(bare).toEqual([]);
});

test('package.json takes its words from package.nls.json, which has no other', () => {
  const manifest = readFileSync(join(ROOT, 'package.json'), 'utf8');
  const keys = [...manifest.matchAll(/"%([\w.]+)%"/g)].map(([, key]) => key);
  expect([...new Set(keys)].sort()).toEqual(
    Object.keys(JSON.parse(readFileSync(join(ROOT, 'package.nls.json'), 'utf8')) as object).sort(),
  );
});
