/** A visit is judged at its end, for ever; what days have done since is reported for today alone. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { createLog } from '../../src/evaluation/index.ts';
import { driftRate } from '../../src/estimate/drift-rate.ts';
import { fold } from '../../src/estimate/fold.ts';
import { allIntervals } from '../../src/estimate/drift-intervals.ts';
import { PRIORS, type LogEntry } from '../../src/model/index.ts';
import {
  CENTRED,
  codes,
  evaluated,
  LIMITS,
  log,
  MACHINE,
  stationOf,
  states,
  stepTexts,
  reader,
} from '../support/log.ts';

const { M1, M3, lens } = CENTRED;
const NEAR_THE_LIMIT =
  'marks: M2\nshots:\n  - {at: near, mark: 1.3 right 0 up}\n  - {at: far, mark: 1.3 right 0 up}\n  - {at: 410 mm, mark: 1.3 right 0 up}\n';
const SESSION = 'session: look\ndate: 2026-03-07\n';
const RELEASE = 'release: in service\nby: kt\ndate: 2026-03-07\n';
const VISIT = [SESSION, M1, NEAR_THE_LIMIT, M3, lens, RELEASE];
const note = (date: string) => `note: a tape was ordered\ndate: ${date}\n`;
const OUTSIDE = 'marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n';
/** At the cells of the visit alone; of the order of work nothing is said here. */
const END = 2 + VISIT.length;
const inVisit = (...cells: string[]) =>
  codes(log(...cells).findings.filter(({ cell }) => cell < END)).filter((code) => !code.startsWith('fire.'));

describe('later entries do not change a visit', () => {
  test.each([
    ['a note of years later', note('2031-01-01')],
    ['a turn', 'adjust: M1\nturn: {A: in 1/4}\n'],
    ['marks that are outside', OUTSIDE],
    ['stricter limits', LIMITS.replace('centre: 2 mm, spread: 1.5 mm', 'centre: 0.1 mm, spread: 0.1 mm')],
    ['limits without a station', LIMITS.replace(/^ {2}M2: .*\n/m, '')],
    ['another machine', MACHINE.replace('near: 130 mm, far: 690 mm', 'near: 200 mm, far: 800 mm')],
    ['a session', 'session: next\ndate: 2027-01-01\n'],
  ])('%s', (_, cell) => {
    expect(inVisit(...VISIT)).toEqual([]);
    expect(inVisit(...VISIT, cell)).toEqual([]);
  });

  test('its findings stay', () => {
    const wrong = [SESSION, M1, OUTSIDE, M3, lens, RELEASE];
    expect(inVisit(...wrong)).toEqual(['log.height', 'release.outside']);
    for (const later of [
      SESSION,
      M1,
      LIMITS.replaceAll('centre: 2 mm', 'centre: 9 mm'),
      'adjust: M1\nturn: {A: in 1/4}\n',
    ]) {
      expect(inVisit(...wrong, later)).toEqual(['log.height', 'release.outside']);
    }
  });

  test('every visit has its own findings, at its own cells', () => {
    const bowed =
      'marks: M2\nshots: [{at: near, mark: centre}, {at: 410 mm, mark: 0 right 2.5 down}, {at: far, mark: centre}]\n';
    const result = log(SESSION, bowed, SESSION, M1, SESSION, bowed).findings.filter(({ code }) => code === 'log.bowed');
    expect(result.map(({ cell }) => cell)).toEqual([3, 7]);
  });

  test('a release outside of a visit is judged too', () => {
    const result = log(
      SESSION,
      M1,
      OUTSIDE,
      M3,
      lens,
      'release: withdrawn\nby: kt\n',
      note('2026-04-01'),
      RELEASE,
    ).findings;
    expect(result.filter(({ code }) => code === 'release.outside').map(({ cell }) => cell)).toEqual([9]);
  });

  test('it is judged by the limits at its end, and care logged before', () => {
    const limited = evaluated(
      MACHINE,
      LIMITS.replace(/^ {2}M2: .*\n/m, ''),
      SESSION,
      NEAR_THE_LIMIT,
      LIMITS,
      SESSION,
      M1,
    );
    expect(codes(limited.findings)).not.toContain('log.noLimits');
    const late = evaluated(MACHINE, LIMITS.replace(/^ {2}M2: .*\n/m, ''), SESSION, NEAR_THE_LIMIT, SESSION, M1, LIMITS);
    expect(codes(late.findings)).toContain('log.noLimits');
  });
});

describe('drift since the last visit', () => {
  const years = log(...VISIT, note('2031-03-07'));

  test('is reported for today, with who released it, its source, and a new session cell', () => {
    expect(stationOf(years, 'M2').state).toBe('borderline');
    expect([years.verdict, stepTexts(years)]).toEqual(['continue', ['shoot M2 near far']]);
    expect(years.steps[0]!.why).toMatch(
      /^M2 was last within on 2026-03-07 \(released by kt\); after 1826 days those marks no longer prove it\. Since then the marks may have moved by ± \d\.\d mm without any adjustment \(assumed by common practice: .*\)\. Shoot M2 again\.$/,
    );
    expect(years.steps[0]!.cell).toMatch(/^session: .+\n---\nmarks: M2\n/);
  });

  test('is negligible for a week, and does not affect the judged visit', () => {
    const week = log(...VISIT, note('2026-03-14'));
    expect([week.verdict, stepTexts(week)]).toEqual(['within', []]);
    expect(codes(years.findings)).toEqual(codes(log(...VISIT).findings));
  });

  test('counts from the last cell that measures or moves to the latest date of the file', () => {
    const latest = log(...VISIT, note('2031-03-07'), 'note: an old letter\ndate: 2026-03-08\n');
    expect(stationOf(latest, 'M2').probability).toBe(stationOf(years, 'M2').probability);
    const slow = log(SESSION, M1, NEAR_THE_LIMIT, M3, lens, note('2031-03-07'), RELEASE.replace('2026', '2031'));
    expect(codes(slow.findings)).not.toContain('release.outside');
    expect(slow.verdict).toBe('continue');
  });

  test('a station that was not within is aligned as before', () => {
    const result = log(SESSION, M1, OUTSIDE, note('2031-03-07'));
    expect(result.steps[0]!.why).not.toContain('no longer prove it');
    expect(states(log(SESSION, M1, note('2031-03-07')))).toContain('M2 unread');
  });
});

describe('the drift rate of an untouched machine', () => {
  const read = (...cells: string[]): readonly LogEntry[] =>
    reader.read(cells.join('---\n'), { file: 'test.alignbook.yaml', files: new Map() }).entries;
  const rate = (...cells: string[]) => {
    const state = fold(read(MACHINE, LIMITS, ...cells));
    return driftRate(state.system!.machine, allIntervals(state));
  };
  const session = (date: string) => `session: look\ndate: ${date}\n`;
  const m2 = (far: string) => `marks: M2\nshots: {near: centre, far: ${far}}\n`;
  const moving = ['2026-01-01', '2026-04-01', '2026-07-01', '2026-10-01'].flatMap((date, k) => [
    session(date),
    M1,
    m2(`${3 * (k % 2)} right 0 up`),
  ]);
  const still = ['2026-01-01', '2026-04-01', '2026-07-01', '2026-10-01'].flatMap((date) => [
    session(date),
    M1,
    m2('centre'),
  ]);
  const ASSUMED = PRIORS.driftTilt.value ** 2;

  test('is assumed until a visit has found what another one left', () => {
    expect(rate(session('2026-01-01'), M1)).toMatchObject({
      from: 'assumed',
      variance: expect.closeTo(ASSUMED, 15),
      visits: 0,
    });
  });

  test('is estimated from stations that moved, and from those that did not', () => {
    expect(rate(...moving)).toMatchObject({ from: 'learnt', visits: 3, days: 273 });
    expect(rate(...moving).variance).toBeGreaterThan(9 * ASSUMED);
    expect(rate(...still).variance).toBeLessThan(ASSUMED);
  });

  test('is near the true rate', () => {
    // Both slopes of the tube and of M1 by 0.1 mrad a root day, seen on M2 through the nominal layout: some 0.23 mm a
    // root day at the far stop.
    let at = 0;
    const steps = [1.9, -2.6, 0.8, 2.4, -1.5, -2.1, 1.2, 2.8, -0.4, -2.2, 1.7, 0.3];
    const drawn = steps.flatMap((step, k) => {
      at += step;
      return [
        session(new Date(Date.UTC(2026, 0, 1 + 91 * k)).toISOString().slice(0, 10)),
        `marks: M2\nshots: [{at: far, mark: {right: ${at.toFixed(2)} mm, up: ${(at / 2).toFixed(2)} mm}}]\n`,
      ];
    });
    const result = Math.sqrt(rate(...drawn).variance);
    expect(result).toBeGreaterThan(0.00006);
    expect(result).toBeLessThan(0.00016);
  });

  test.each([
    ['a turn', ['adjust: M1\nturn: {A: in 1/8}\n']],
    ['an event', ['event: collision\n']],
    ['another machine', [MACHINE.replace('leg: 90 mm', 'leg: 95 mm')]],
    ['the tube', ['adjust: tube\nshift: 1 mm up\n']],
  ])('but not across %s', (_, between) => {
    const touched = [session('2026-01-01'), m2('centre'), ...between, session('2026-04-01'), m2('5 right 0 up')];
    expect(rate(...touched).from).toBe('assumed');
    expect(rate(session('2026-01-01'), m2('centre'), session('2026-04-01'), ...between, m2('5 right 0 up')).from).toBe(
      'assumed',
    );
  });

  test('a visit is judged by the rate known before it; today by all visits', () => {
    const state = fold(read(MACHINE, LIMITS, ...moving));
    expect([state.pastIntervals.length, allIntervals(state).length]).toEqual([2, 3]);
  });

  test('is that of the machine cell, if given', () => {
    const state = fold(read(MACHINE.replace('source:', 'priors: {driftTilt: 0.3 mrad}\nsource:'), LIMITS, ...moving));
    expect(driftRate(state.system!.machine, allIntervals(state))).toMatchObject({
      from: 'written',
      variance: 0.0003 ** 2,
    });
  });

  test('is stated in the reason, with its source', () => {
    const result = log(...moving.slice(0, -1), NEAR_THE_LIMIT, M3, lens, note('2027-10-01'));
    expect(result.steps[0]!.why).toContain('The machine drifts: since then');
    expect(result.steps[0]!.why).toContain('estimated from 3 intervals, 273 days in total: see `alignbook sessions`');
  });

  test('with no measurable drift in a year: within for weeks at two thirds of the limit', () => {
    const text = readFileSync(new URL('../../examples/6-through-the-year.alignbook.yaml', import.meta.url), 'utf8');
    const machine = readFileSync(new URL('../../examples/machines/bollard.alignbook.yaml', import.meta.url), 'utf8');
    const entries = (more: string) =>
      reader.read(`${text}---\n${more}`, {
        file: 'e.alignbook.yaml',
        files: new Map([['machines/bollard.alignbook.yaml', { text: machine }]]),
      }).entries;
    const after = (date: string) => {
      const book = createLog();
      book.replace(entries(note(date)));
      return stationOf(book.evaluation(), 'M2');
    };
    expect(after('2026-07-11').state).toBe('within');
    expect(after('2026-07-15').state).toBe('within');
    expect(after('2026-08-11').state).toBe('within');
  });
});
