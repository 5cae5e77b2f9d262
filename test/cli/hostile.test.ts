/**
 * Whatever a file holds: an answer in a bounded time, in which no number is none. A log is read by a person who then
 * turns a screw, so `within` is never said of what is not known to be.
 */
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { threads } from '../../src/alignment/index.ts';
import { evaluated } from '../../src/cli/evaluated.ts';
import { nextJson } from '../../src/cli/json.ts';
import { nextText } from '../../src/cli/next-text.ts';
import { expressions } from '../../src/workbook/index.ts';
import { checkAnswer, nextAnswer } from './answers.ts';
import { HOSTILE, NOT_WITHIN } from './hostile.ts';
import { LOGS } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

/** ms; some ten times what the slowest takes. */
const LONGEST = 5_000;
/** Words of a computer in a sentence for people; a user's own text, in backticks, may hold them. */
const NO_WORDS = /\bNaN\b|Infinity|\bundefined\b|\bnull\b|\[object/;

function answered(text: string | Uint8Array) {
  return bothWays(text).answer;
}

/** For programs and for people, of one evaluation: it is what takes the time. */
function bothWays(text: string | Uint8Array) {
  const file = place.file('hostile.yaml', text);
  const before = performance.now();
  const { evaluation, findings } = evaluated(file, { threads, expressions });
  const answer = nextAnswer(`${nextJson(file, evaluation, findings)}\n`);
  const said = evaluation ? nextText(file, evaluation, findings, (_, words) => words) : '';
  expect(performance.now() - before).toBeLessThan(LONGEST);
  return { answer, said };
}

/** Both commands, where reading costs little. */
function bothAnswer(text: string | Uint8Array): void {
  const { findings } = answered(text);
  expect(checkAnswer(typed('check', '--json', place.file('hostile.yaml', text)).out).findings).toEqual(findings);
}

describe('next answers', () => {
  test.each(Object.keys(HOSTILE))('%s', (name) => {
    const { said } = bothWays(HOSTILE[name]!);
    expect(said.replaceAll(/`[^`]*`/g, '')).not.toMatch(name.includes('null') ? /\bNaN\b|Infinity|\bundefined\b|\[object/ : NO_WORDS);
  });
});

test('what the next ones are made of is within', () => {
  expect(answered(LOGS['all within']!).verdict).toBe('within');
});

test.each(Object.keys(NOT_WITHIN))('not within: %s', (name) => {
  expect(answered(NOT_WITHIN[name]!).verdict).not.toBe('within');
});

test('random bytes', () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), bothAnswer), { numRuns: 80 });
});

/** A log with a few stretches of it replaced, repeated or taken out. */
const mutated = fc.tuple(
  fc.constantFrom(...Object.values(LOGS).filter((text) => text.length > 400)),
  fc.array(fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    remove: fc.constantFrom(0, 0, 1, 2, 10, 60),
    put: fc.constantFrom('', '', '0', '9', '-', '.', ' ', '1e9', '%', 'in', ': ', ', ', '\n', '\n---\n', '{', '}', '[', ']', 'none', 'far', 'M1', 'lens', 'up', '\u00e9'),
  }), { minLength: 1, maxLength: 4 }),
).map(([log, edits]) => edits.reduce((text, { at, remove, put }) => {
  const from = Math.floor(at * text.length);
  return text.slice(0, from) + put + text.slice(from + remove);
}, log));

test('good logs with chance changes', () => {
  fc.assert(fc.property(mutated, bothAnswer), { numRuns: 80 });
});
