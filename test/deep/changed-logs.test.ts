/**
 * Whatever a file holds: an answer, in which no number is none. A log is read by a person who then
 * turns a screw, so `within` is never said of what is not known to be.
 */
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { bothWays, checkAnswer } from '../cli/answers.ts';
import { MUTATED } from '../cli/hostile.ts';
import { folder, typed } from '../cli/terminal.ts';
import { drawn } from './amount.ts';

const place = folder();
afterAll(() => place.remove());

/** Both commands, where reading costs little. */
function bothAnswer(text: string | Uint8Array): void {
  const file = place.file('hostile.yaml', text);
  const { findings } = bothWays(file).answer;
  expect(checkAnswer(typed('check', '--json', file).out).findings).toEqual(findings);
}

test('random bytes', () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), bothAnswer), drawn(80));
});

test('good logs with chance changes', () => {
  fc.assert(fc.property(MUTATED, bothAnswer), drawn(80));
});
