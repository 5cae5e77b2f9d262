/**
 * Whatever a file holds: an answer, in which no number is none. A log is read by a person who then
 * turns a screw, so nothing is reported as `within` that is not known to be.
 */
import { afterAll, describe, expect, test } from 'vitest';
import { sampled } from '../support/amount.ts';
import { bothWays } from './answers.ts';
import { HOSTILE, NOT_WITHIN } from './hostile.ts';
import { LOGS } from './logs.ts';
import { folder } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const ways = (text: string | Uint8Array) => bothWays(place.file('hostile.yaml', text));

/** Words of a computer in a sentence for people; a user's own text, in backticks, may hold them. */
const NO_WORDS = /\bNaN\b|Infinity|\bundefined\b|\bnull\b|\[object/;

describe('next answers', () => {
  test.each(sampled(Object.keys(HOSTILE)))('%s', (name) => {
    const { text } = ways(HOSTILE[name]!);
    expect(text.replaceAll(/`[^`]*`/g, '')).not.toMatch(
      name.includes('null') ? /\bNaN\b|Infinity|\bundefined\b|\[object/ : NO_WORDS,
    );
  });
});

test('what the next ones are made of is within', () => {
  expect(ways(LOGS['all within']!).answer.verdict).toBe('within');
});

test.each(Object.keys(NOT_WITHIN))('not within: %s', (name) => {
  expect(ways(NOT_WITHIN[name]!).answer.verdict).not.toBe('within');
});
