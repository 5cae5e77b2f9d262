/** Lock nuts: their state by the log, the advice, and the findings at a release. */
import { describe, expect, test } from 'vitest';
import { CENTRED, codes, evaluated, LIMITS, MACHINE, stationOf, states, stepTexts, WITH_NUTS } from '../support/log.ts';

const { M1, M2, M3, lens } = CENTRED;
const ALL = [M1, M2, M3, lens];
/** M1's screw B is an eighth off. */
const OFF = 'marks: M2\nshots: {near: 0.4 right 0 up, far: 2.8 right 0 up}\n';
const RELEASE = 'release: in service\nby: kt\n';
const nuts = (part: string, lock: string) => `adjust: ${part}\nlock: ${lock}\n`;
const turn = (part: string, amount = 'in 1/16', lock = '') =>
  `adjust: ${part}\nturn: {A: ${amount}}\n${lock && `lock: ${lock}\n`}`;
const log = (...cells: string[]) => evaluated(WITH_NUTS, LIMITS, ...cells);

describe('before a mirror’s first turn in a visit its nuts are loosened', () => {
  test.each<[string, string[], string[]]>([
    ['not known', [], ['lock M1 loose']],
    ['tight', [nuts('M1', 'tight')], ['lock M1 loose']],
    ['found tight', [nuts('M1', 'found tight')], ['lock M1 loose']],
    ['loose', [nuts('M1', 'loose')], []],
    ['found loose', [nuts('M1', 'found loose')], []],
    ['loosened in an earlier visit', [nuts('M1', 'loose'), 'session: two\n'], []],
    ['tightened in an earlier visit', [nuts('M1', 'loose'), nuts('M1', 'tight'), 'session: two\n'], ['lock M1 loose']],
    ['turned in this visit without a word of them', [turn('M1', 'out 1/32'), turn('M1', 'in 1/32')], []],
    [
      'turned in an earlier visit without a word of them',
      [turn('M1', 'out 1/32'), turn('M1', 'in 1/32'), 'session: two\n'],
      ['lock M1 loose'],
    ],
    ['loose before the machine was moved', [nuts('M1', 'loose'), 'event: moved\n'], ['lock M1 loose']],
    ['of another mirror', [nuts('M2', 'loose')], ['lock M1 loose']],
  ])('%s', (_, cells, expected) => {
    expect(stepTexts(log(...cells, M1, OFF))).toEqual([
      ...expected,
      expect.stringMatching(/^turn M1 B/),
      'lock M1 tight',
      'shoot M2 near far',
    ]);
  });

  test('none for a mirror that is not turned, and none for a block', () => {
    expect(stepTexts(log('marks: M1\nshots: 4.5 right 0 up\n'))).toEqual(['shift tube 0,-4.5,0', 'shoot M1 here']);
  });

  test('none where the mount has none', () => {
    expect(stepTexts(evaluated(MACHINE, LIMITS, M1, OFF))).toEqual(['turn M1 B 0.125', 'shoot M2 near far']);
  });

  test('the predicted mark then includes the uncertainty of loosening', () => {
    const [loose, tight] = [nuts('M1', 'found loose'), nuts('M1', 'found tight')].map(
      (cell) => log(cell, M1, OFF).expected.at(-1)!,
    );
    // A lock tilts its mirror by 0.5 mrad; that raises a beam which meets it at 45 degrees by √2 of it.
    expect(Math.hypot(loose!.u.up, Math.SQRT2 * 0.0005 * 690)).toBeCloseTo(tight!.u.up, 2);
  });
});

describe('nuts loose or to be tightened', () => {
  test.each<[string, string]>([
    ['loosened', nuts('M1', 'loose')],
    ['found loose', nuts('M1', 'found loose')],
    ['turned without a word of them', turn('M1')],
    ['turned while tight', `${nuts('M1', 'found tight')}---\n${turn('M1')}`],
  ])('%s: not within; tightened, and what that may have moved is shot again', (_, cell) => {
    const evaluation = log(cell, ...ALL);
    expect(states(evaluation)).toBe('M1 within, M2 within, M3 within, lens within');
    expect([evaluation.verdict, ...stepTexts(evaluation)]).toEqual(['continue', 'lock M1 tight', 'shoot M2 near far']);
    const tightened = log(cell, ...ALL, nuts('M1', 'tight'));
    expect([states(tightened), ...stepTexts(tightened)]).toEqual([
      'M1 within, M2 stale, M3 stale, lens stale',
      'shoot M2 near far',
    ]);
    expect(log(cell, ...ALL, nuts('M1', 'tight'), M2, M3, lens).verdict).toBe('within');
  });

  test('are tightened with a turn that is probably the last, otherwise when the turns are done', () => {
    expect(stepTexts(log(nuts('M1', 'loose'), M1, OFF))).toEqual([
      'turn M1 B 0.125',
      'lock M1 tight',
      'shoot M2 near far',
    ]);
    const far = log(nuts('M1', 'loose'), M1, 'marks: M2\nshots: {near: 1.5 right 1.5 up, far: 9 right 9 up}\n');
    expect(stepTexts(far).filter((step) => step.startsWith('lock'))).toEqual([]);
    expect(stepTexts(far).at(-1)).toBe('shoot M2 near far');
  });

  test('the reported probability is that with tight nuts', () => {
    const chance = (...cells: string[]) => Number(/within is (\d+) %/.exec(log(...cells, M1, OFF).steps[0]!.why!)![1]);
    const free = Number(/within is (?:over )?(\d+) %/.exec(evaluated(MACHINE, LIMITS, M1, OFF).steps[0]!.why!)![1]);
    expect(chance(nuts('M1', 'loose'))).toBeLessThan(free);
    expect(chance(nuts('M1', 'tight'))).toBeLessThan(chance(nuts('M1', 'loose')));
  });

  test('are tightened before the next mirror is aligned', () => {
    expect(stepTexts(log(nuts('M1', 'loose'), M1, M2))).toEqual(['lock M1 tight', 'shoot M2 near far']);
    expect(stepTexts(log(nuts('M1', 'loose'), M1, M2, nuts('M1', 'tight'), M2))).toEqual([
      'shoot M3 near/M2=near far/M2=far',
    ]);
  });

  test('of several mirrors are tightened in path order, followed by one shot', () => {
    expect(stepTexts(log(nuts('M3', 'loose'), nuts('M2', 'loose'), ...ALL))).toEqual([
      'lock M2 tight',
      'lock M3 tight',
      'shoot M3 near/M2=near far/M2=far',
    ]);
  });

  test('before stations without limits are tightened without a shot', () => {
    const short = LIMITS.replace('  lens: {centre: 1.5 mm}\n', '');
    expect(stepTexts(evaluated(WITH_NUTS, short, nuts('M3', 'loose'), M1, M2, M3))).toEqual(['lock M3 tight']);
  });
});

describe('nuts in an unknown state, of mirrors that were not turned', () => {
  const item = (cells: readonly string[]) =>
    log(...cells).steps.flatMap((step) => (step.kind === 'check' ? step.items : []));

  test('one item before the release, and no step', () => {
    expect(stepTexts(log(...ALL))).toEqual(['check', 'release']);
    expect(item(ALL)).toEqual(['lock nuts of M1, M2 and M3 tight']);
    expect(item([nuts('M2', 'found tight'), ...ALL])).toEqual(['lock nuts of M1 and M3 tight']);
    expect(codes(log(...ALL, RELEASE).findings)).not.toContain('release.loose');
  });

  test('are checked once a visit', () => {
    const done = `checks: before release\ndone: [${item(ALL)[0]!.replaceAll(',', '')}]\n`;
    expect(log(...ALL).steps[0]!.cell).toBeUndefined();
    expect(item([...ALL, done])).toEqual([]);
    expect(item([done, 'session: two\n', ...ALL])).toHaveLength(1);
  });
});

describe('found tight is a state', () => {
  const before = log(...ALL);
  const after = log(...ALL, nuts('M1', 'found tight'));

  test('nothing moved, nothing becomes stale', () => {
    expect(states(after)).toBe(states(before));
    expect(stationOf(after, 'lens')).toEqual(stationOf(before, 'lens'));
  });
});

test('with `locks: none` no lock step is given, and `lock` there is a finding', () => {
  for (const lock of ['tight', 'loose', 'found tight', 'found loose']) {
    const evaluation = evaluated(MACHINE, LIMITS, nuts('M1', lock), M1, M2, M3, lens);
    expect([codes(evaluation.findings), evaluation.verdict]).toEqual([['order.noLocks'], 'within']);
  }
});
