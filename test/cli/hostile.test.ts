/**
 * Whatever a file holds: an answer in a bounded time, in which no number is none. A log is read by a person who then
 * turns a screw, so `within` is never said of what is not known to be.
 */
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { checkAnswer, nextAnswer, oneLine, unknowns } from './answers.ts';
import { HOSTILE, MUTATED, NOT_WITHIN } from './hostile.ts';
import { LOGS } from './logs.ts';
import { folder, typed, typist } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

/** ms; some ten times what the slowest takes. */
const LONGEST = 5_000;
/** Words of a computer in a sentence for people; a user's own text, in backticks, may hold them. */
const NO_WORDS = /\bNaN\b|Infinity|\bundefined\b|\bnull\b|\[object/;

function answered(text: string | Uint8Array) {
  return bothWays(text).answer;
}

/** Every answer for programs, and that for people, of one evaluation: it is what takes the time. */
function bothWays(text: string | Uint8Array) {
  const file = place.file('hostile.yaml', text);
  const before = performance.now();
  const ask = typist();
  const answer = nextAnswer(ask('next', '--json', file).out);
  for (const command of ['care', 'sessions', 'light'])
    expect(unknowns(oneLine(ask(command, '--json', file).out)), command).toEqual([]);
  const said = ask('next', file).out;
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
    expect(said.replaceAll(/`[^`]*`/g, '')).not.toMatch(
      name.includes('null') ? /\bNaN\b|Infinity|\bundefined\b|\[object/ : NO_WORDS,
    );
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

test('good logs with chance changes', () => {
  fc.assert(fc.property(MUTATED, bothAnswer), { numRuns: 80 });
});
