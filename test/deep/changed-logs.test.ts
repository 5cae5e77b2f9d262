/**
 * Any file gives an answer in which no number is NaN. A person turns a screw by the answer, so `within` is never
 * reported without evidence.
 */
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { bothWays, checkAnswer } from '../cli/answers.ts';
import { MUTATED } from '../cli/hostile.ts';
import { folder, typed } from '../cli/terminal.ts';
import { drawn } from '../support/amount.ts';

const place = folder();
afterAll(() => place.remove());

/** Both commands, for files that are cheap to read. */
function bothAnswer(text: string | Uint8Array): void {
  const file = place.file('hostile.yaml', text);
  const { findings } = bothWays(file).answer;
  expect(checkAnswer(typed('check', '--json', file).out).findings).toEqual(findings);
}

test('random bytes', () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), bothAnswer), drawn(80));
});

test('good logs with random changes', () => {
  fc.assert(fc.property(MUTATED, bothAnswer), drawn(80));
});
