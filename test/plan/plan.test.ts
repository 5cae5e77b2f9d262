/**
 * What a move is, and what it is not: hand amounts, no tube where screws do as well, no mirror upstream for next to
 * nothing; and what further shots would show.
 */
import { describe, expect, test } from 'vitest';
import { estimate, predict } from '../../src/estimate/estimate.ts';
import { fold } from '../../src/estimate/fold.ts';
import { afterShots, shotsNeeded } from '../../src/plan/hypothetical.ts';
import { NO_MOVE } from '../../src/machine/move.ts';
import { queryAt } from '../../src/machine/places.ts';
import { stationVerdicts, type StationVerdict } from '../../src/verdict/station-verdict.ts';
import type { Evaluation } from '../../src/model/index.ts';
import { CENTRED, LIMITS, log, MACHINE, stationOf, stepTexts, reader } from '../support/log.ts';

const { M1, M2, M3 } = CENTRED;
const m2 = (near: string, middle: string, far: string) =>
  `marks: M2\nshots: [{at: near, mark: ${near}}, {at: 410 mm, mark: ${middle}}, {at: far, mark: ${far}}]\n`;
const turns = ({ steps }: Evaluation) => steps.flatMap((step) => (step.kind === 'turn' ? [step] : []));
const ANGLES: readonly (readonly [string, string, string])[] = [
  ['0.4 right 0 up', '1.6 right 0 up', '2.8 right 0 up'],
  ['0.5 right 0.5 up', '2 right 2 down', '3.5 right 4 down'],
  ['1 left 0 up', '2.5 left 1.5 up', '4.5 left 3 up'],
  ['0 right 1 up', '0.5 left 2.5 up', '1 left 4.5 up'],
];

describe('a move', () => {
  test.each(ANGLES)('of an angle at M2 (%s, %s, %s) is one of M1’s screws, no tube and no block', (...marks) => {
    const evaluation = log(M1, m2(...marks));
    expect(turns(evaluation).length).toBeGreaterThan(0);
    expect(evaluation.steps.filter(({ kind }) => kind === 'shift')).toEqual([]);
    expect(new Set(turns(evaluation).map(({ part }) => part))).toEqual(new Set(['M1']));
  });

  test.each(ANGLES)(
    'has amounts of a hand (%s, %s, %s): quarters, eighths and sixteenths, a thirty-second if a sixteenth misses',
    (...marks) => {
      for (const { turns: amount } of turns(log(M1, m2(...marks)))) expect(Number.isInteger(amount * 32)).toBe(true);
    },
  );

  test('uses only the mirror before the station if that suffices: upstream stations stay within', () => {
    const evaluation = log(
      M1,
      M2,
      'marks: M3\nshots:\n  - {at: near, mark: 0.5 right 0 up}\n  - {at: far, mark: 4 right 0 up}\n  - {at: near, with: {M2: far}, mark: 0.5 right 0 up}\n  - {at: far, with: {M2: far}, mark: 4 right 0 up}\n  - {at: 490 mm, mark: 2 right 0 up}\n',
    );
    expect(
      turns(evaluation)
        .filter(({ part }) => part === 'M1')
        .every(({ turns: amount }) => Math.abs(amount) >= 1 / 16),
    ).toBe(true);
    expect(turns(evaluation).some(({ part }) => part === 'M2')).toBe(true);
  });
});

describe('against its own marks', () => {
  /**
   * Nothing but the newest cell of a place speaks for it: a plain reading over the limit caps the probability and is
   * shot again.
   */
  test('a place whose newest mark exceeds the limit is not within, whatever the older ones are', () => {
    const at = (far: string) => `marks: M2\nshots: [{at: far, mark: ${far}}]\n`;
    const evaluation = log(
      M1,
      m2('0.9 right 0 up', '0.9 right 0 up', '1.9 right 0 up'),
      at('1.9 right 0 up'),
      at('2.4 right 0 up'),
    );
    const M2now = stationOf(evaluation, 'M2');
    const centre = M2now.requirements.find(({ limit }) => limit === 'centre')!;
    expect(centre.value).toBeCloseTo(2.4, 6);
    expect(centre.probability).toBeLessThanOrEqual(0.1);
    expect(M2now.state).not.toBe('within');
  });

  test('the value of a requirement is the plain reading: the mean of the newest cell at each place', () => {
    const evaluation = log(
      M1,
      m2('centre', 'centre', '0 right 0 up'),
      'marks: M2\nshots: [{at: far, mark: [0.4 right 0 up, 0.6 right 0 up]}]\n',
    );
    expect(stationOf(evaluation, 'M2').requirements.find(({ limit }) => limit === 'spread')!.value).toBeCloseTo(0.5, 6);
  });
});

describe('hypothetical shots', () => {
  const known = (...cells: string[]) => {
    const state = fold(
      reader.read([MACHINE, LIMITS, ...cells].join('---\n'), {
        file: 'test.alignbook.yaml',
        files: new Map(),
      }).entries,
    );
    const now = estimate(state)!;
    const verdict = stationVerdicts(state, now).find(({ report }) => report.name === 'M2') as StationVerdict & {
      demand: NonNullable<StationVerdict['demand']>;
    };
    return { state, now, verdict };
  };
  const ENDS = 'marks: M2\nshots: {near: centre, far: centre}\n';
  const at410 = (of: ReturnType<typeof estimate>, { station }: StationVerdict) =>
    predict(of!, [queryAt(station, { M2: 410 })], NO_MOVE)!;

  test('reduce the uncertainty of their place and move nothing', () => {
    const { state, now, verdict } = known(M1, ENDS);
    const [before, after] = [now, afterShots(state, now, verdict, [{ at: 410 }])].map((of) => at410(of, verdict));
    expect(after!.mean[0]).toBeCloseTo(before!.mean[0]!, 6);
    expect(after!.covariance.data[0]).toBeLessThan(before!.covariance.data[0]! / 4);
  });

  test('are counted until the limits are shown to be met, or never are', () => {
    const { state, now, verdict } = known(M1, ENDS);
    expect(shotsNeeded(state, now, verdict, [{ at: 410 }])).toBe(1);
    const outside = known(M1, m2('3 right 0 up', '3 right 0 up', '3 right 0 up'));
    expect(shotsNeeded(outside.state, outside.now, outside.verdict, [{ at: 'far' }])).toBeUndefined();
    expect(shotsNeeded(state, now, verdict, [])).toBeUndefined();
  });
});

test('nothing is moved if everything is within', () => {
  expect(turns(log(M1, M2, M3))).toEqual([]);
  expect(stepTexts(log(M1, M2, M3))[0]).toMatch(/^shoot lens/);
});
