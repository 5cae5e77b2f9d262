/**
 * Practice machines, aligned in their own workbooks: who follows the advice and reads marks with the reading error of
 * the workbook is truly within at the end, and needs less than who works by habit, who needs less than who guesses.
 *
 *     SEED=7 COUNT=2000 npx vitest run --project deep test/deep/practice.test.ts      (1,000 seeds a level)
 */
import { expect, test } from 'vitest';
import { leastCount } from '../bench/converge-counts.ts';
import { byAdvice, byGuess, byHabit, LENIENT, type Ended } from '../simulator/bots.ts';
import { runs, sampled, SEED } from '../support/amount.ts';

/** Runs with consecutive seeds share no machines. */
const seedsOf = (count: number) => sampled(Array.from({ length: count }, (_, k) => SEED * 1_000_000 + k));
const SEEDS = seedsOf(runs(250));

const isTruly = ({ worst }: Ended) => worst <= LENIENT;

test.each([1, 2, 3, 4])('level %i: the advice ends truly within', (level) => {
  const failed: string[] = [];
  let [within, blocked, truly] = [0, 0, 0];
  for (const seed of SEEDS) {
    const ended = byAdvice(seed, level);
    if (ended.end === 'within') within++;
    if (ended.end === 'blocked') blocked++;
    if (isTruly(ended)) truly++;
    else failed.push(inWords(seed, ended));
  }
  console.log(
    `practice level ${level}, seed ${SEED}: ${truly} of ${SEEDS.length} truly within × ${LENIENT}; verdict within ${within}, blocked ${blocked}${failed.map((one) => `\n  ${one}`).join('')}`,
  );
  expect(truly).toBeGreaterThanOrEqual(leastCount(SEEDS.length, 0.99));
});

test('level 5: the advice ends truly within, or stops and has done no harm', () => {
  const harmed: string[] = [];
  let [truly, stopped, risks] = [0, 0, 0];
  for (const seed of SEEDS) {
    const ended = byAdvice(seed, 5);
    risks += ended.risks;
    if (isTruly(ended)) truly++;
    else if (ended.end === 'blocked' && ended.risks === 0) stopped++;
    else harmed.push(inWords(seed, ended));
  }
  console.log(
    `practice level 5, seed ${SEED}: ${truly} of ${SEEDS.length} truly within × ${LENIENT}, ${stopped} stopped without harm, ${harmed.length} otherwise; ${risks} risky moves${harmed.map((one) => `\n  ${one}`).join('')}`,
  );
  expect(truly + stopped).toBeGreaterThanOrEqual(leastCount(SEEDS.length, 0.99));
});

function inWords(seed: number, { end, asFound, worst, where, reason = '' }: Ended): string {
  return `${seed}: ${end}, ${where} × ${worst.toFixed(2)} (as found × ${asFound.toFixed(2)}) ${reason.slice(0, 150)}`;
}

/** What a machine that is never truly within costs: more than any that is. */
const NEVER = 400;
const COURSE = [1, 2, 3, 4];

test('the advice is better than habit, and habit is better than guessing, over the course of levels 1 to 4', () => {
  const seeds = seedsOf(runs(50));
  const course = (by: (seed: number, level: number) => Ended, seed: number) =>
    COURSE.reduce((sum, level) => sum + Math.min(NEVER, by(seed, level).cost), 0);
  const costs = seeds.map((seed) => [byAdvice, byHabit, byGuess].map((by) => course(by, seed)));
  const right = costs.filter(([advice, habit, guess]) => advice! < habit! && habit! < guess!).length;
  const median = (k: number) => costs.map((one) => one[k]!).toSorted((a, b) => a - b)[Math.floor(costs.length / 2)];
  console.log(
    `practice, seed ${SEED}: ranked rightly on ${right} of ${seeds.length} seeds; adjustments and tapes to truly within, median of the course: advice ${median(0)}, habit ${median(1)}, guess ${median(2)}`,
  );
  expect(right).toBeGreaterThanOrEqual(leastCount(seeds.length, 0.95));
});
