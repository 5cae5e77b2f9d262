/** The whole-machine move: its effect, and when it is not offered. */
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import { Logged } from '../simulation/logged.ts';
import { random } from '../simulation/random.ts';
import { usualPlan } from '../simulation/world.ts';
import { LIMITS, states, stepTexts } from '../support/log.ts';

const PLAN = usualPlan(5);

/** A machine that is a little off everywhere, with exact turns. */
function slightlyOff(seed: number): Logged {
  const draw = random(seed);
  const about = (deviation: number) => deviation * draw.normal();
  const plates = [0, 1, 2].map(() => ({ piston: 0, right: about(0.0008), up: about(0.0008) }));
  return new Logged(PLAN, LIMITS, {
    fault: { plates, tube: { right: about(0.8), up: about(0.8), turnRight: 0, turnUp: 0 } },
  });
}

const EVERYWHERE = [0, 1, 2, 3];
const machines = Array.from({ length: 24 }, (_, seed) => ({
  seed,
  found: evaluate(
    slightlyOff(seed)
      .shoot(...EVERYWHERE)
      .middles(1, 2).entries,
  ),
}));
const offers = machines.flatMap(({ seed, found: result }) =>
  result.whole ? [{ seed, found: result, whole: result.whole }] : [],
);

test('some machines get an offer, and some do not', () => {
  console.log(
    `${offers.length} offers on ${machines.length} machines: ${offers.map(({ found: result, whole }) => `${stepTexts({ ...result, steps: whole.steps }).join(', ')} (${whole.probability.toFixed(2)})`).join('; ')}`,
  );
  expect(offers.length).toBeGreaterThan(0);
  expect(offers.length).toBeLessThan(machines.length / 2);
});

test('after exact turns and a shot, no station is outside', () => {
  for (const { seed, whole } of offers) {
    const log = slightlyOff(seed)
      .shoot(...EVERYWHERE)
      .middles(1, 2);
    for (const step of whole.steps) log.do(step);
    expect(states(evaluate(log.shoot(...EVERYWHERE).middles(1, 2).entries))).not.toContain('outside');
  }
});

test('it differs from the advised move, has a probability above one half, and ends with a shot', () => {
  for (const { found: result, whole } of offers) {
    expect(stepTexts({ ...result, steps: whole.steps })).not.toEqual(stepTexts(result));
    expect(whole.probability).toBeGreaterThanOrEqual(0.5);
    expect(whole.steps.map(({ kind }) => kind === 'shoot')).toEqual(
      whole.steps.map((_, k) => k === whole.steps.length - 1),
    );
    expect(whole.steps[0]!.why).toMatch(/^The chance that every station is then within is (> )?\d\d %/);
    expect(whole.expected.length).toBeGreaterThan(0);
  }
});

/** The same logs, which have an offer without the change of each case. */
describe('no offer', () => {
  test.each([
    ['while a station was never shot', (log: Logged) => log.shoot(0, 1, 2)],
    [
      'while a station is stale',
      (log: Logged) =>
        log
          .shoot(...EVERYWHERE)
          .middles(1, 2)
          .turn(2, 'A', 1 / 32),
    ],
    [
      'while upstream marks are stale',
      (log: Logged) =>
        log
          .shoot(...EVERYWHERE)
          .middles(1, 2)
          .turn(0, 'A', 1 / 32)
          .shoot(2, 3),
    ],
  ] as const)('%s', (_, work) => {
    for (const { seed } of offers) expect(evaluate(work(slightlyOff(seed)).entries).whole).toBeUndefined();
  });
});

test('none while a mark is double', () => {
  for (const { seed } of offers) {
    const { entries } = slightlyOff(seed)
      .shoot(...EVERYWHERE)
      .middles(1, 2);
    const doubled = entries.map(({ cell, entry }) => ({
      cell,
      entry:
        entry.kind !== 'marks'
          ? entry
          : {
              ...entry,
              shots: entry.shots.map((shot) => ({
                ...shot,
                marks: shot.marks.map((mark) => ({ ...mark, shape: 'double' as const })),
              })),
            },
    }));
    expect(evaluate(doubled).whole).toBeUndefined();
  }
});

test('none while a part is unfit', () => {
  for (const { seed } of offers) {
    const { entries } = slightlyOff(seed)
      .shoot(...EVERYWHERE)
      .middles(1, 2);
    const cracked = { kind: 'care', part: 'M3', found: 'cracked', spans: {} } as const;
    expect(evaluate([...entries, { cell: entries.length, entry: cracked }]).whole).toBeUndefined();
  }
});
