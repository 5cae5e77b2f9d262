/** Visits, what drifted between them, and where that leads. */
import { describe, expect, test } from 'vitest';
import { createLog } from '../../src/evaluation/index.ts';
import type { Drift, Forecast, Outlook, SessionHistory } from '../../src/model/index.ts';
import {
  driftInWords,
  forecastInWords,
  marksInWords,
  sessionInWords,
  sessionHistory,
} from '../../src/history/index.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { entries } from '../support/entries.ts';

function history(...cells: string[]): SessionHistory {
  const all = entries(MACHINE, LIMITS, ...cells);
  const log = createLog();
  log.replace(all);
  return sessionHistory(all, log);
}

const session = (name: string, date?: string) => `session: ${name}\n${date === undefined ? '' : `date: ${date}\n`}`;
const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${whole(near)}, far: ${whole(far)}}\n`;
/** The middle of the travel as well, centred. */
const withMiddle = (near: string, far: string) =>
  `marks: M2\nshots: [{at: near, mark: ${whole(near)}}, {at: far, mark: ${whole(far)}}, {at: 410 mm, mark: centre}]\n`;
/** The other part level with the middle. */
const whole = (mark: string) =>
  mark + (/^\S+ (right|left)$/.test(mark) ? ' 0 up' : /^\S+ (up|down)$/.test(mark) ? ' 0 right' : '');
const at = ({ sessions }: SessionHistory, number: number, name = 'M2') =>
  sessions[number - 1]!.stations.find((station) => station.name === name)!;
const drift = (of: SessionHistory, number: number, name = 'M2') => {
  const station = at(of, number, name);
  return station.drift && driftInWords(station.drift, station);
};

describe('as found and as left', () => {
  test('are the first and the last marks, with their results', () => {
    const { found: asFound, left } = at(
      history(
        session('one', '2026-03-01'),
        m2('centre', '5 right'),
        'adjust: M1\nturn: {B: in 1/4}',
        withMiddle('centre', '0.5 right'),
      ),
      1,
    );
    expect(asFound).toMatchObject({
      date: '2026-03-01',
      state: 'outside',
      centre: { value: 5, at: 'far' },
      spread: { value: 5 },
      missed: 0,
    });
    expect(left).toMatchObject({ state: 'within', centre: { value: 0.5 } });
  });

  test('a lens out of plumb is reported', () => {
    const plumb = LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 1.5 mm, plumb: 12 mrad}');
    const bed = 'marks: lens\nshots: [{height: 20 mm, mark: centre}, {height: 120 mm, mark: 2 right 0 rear}]';
    const lens = at(history(plumb, session('one'), CENTRED.lens, bed), 1, 'lens');
    expect(lens.found).toMatchObject({
      state: 'outside',
      centre: { value: 0 },
      lean: { value: expect.closeTo(20, 0) },
    });
    expect(marksInWords(lens.found!, lens)).toMatch(/, 20\.0 ± \d\.\d mrad out of plumb; out of limits/);
  });

  test('marks that are added before anything moves belong to what was found', () => {
    const { found: asFound, left } = at(
      history(session('one'), 'marks: M2\nshots: {near: centre}', 'marks: M2\nshots: {far: 2 right 0 up}'),
      1,
    );
    expect(asFound).toMatchObject({ centre: { value: 2 }, spread: { value: 2 } });
    expect(left).toBeUndefined();
  });

  test('first marks behind a mirror that was turned before are reported as such', () => {
    expect(at(history(session('one'), 'adjust: M1\nturn: {B: in 1/4}', m2('centre', 'centre')), 1).after?.what).toBe(
      'M1 was adjusted',
    );
  });

  test('are judged by the limits at the end of the visit, not by those in force when they were shot, nor by later ones', () => {
    const strict = LIMITS.replace('M2: {centre: 2 mm', 'M2: {centre: 0.2 mm');
    const result = history(
      session('one'),
      m2('centre', '1 right'),
      strict,
      session('two'),
      LIMITS,
      withMiddle('centre', '0.5 right'),
    );
    expect([at(result, 1).found!.state, at(result, 2).found!.state]).toEqual(['outside', 'within']);
  });

  test('work after a release is a visit without a name', () => {
    const result = history(
      session('one', '2026-03-01'),
      m2('centre', 'centre'),
      'release: in service\nby: kt',
      'note: seen off',
      m2('centre', '1 right'),
      'adjust: M1\nturn: {B: in 1/8}',
      m2('centre', 'centre'),
    );
    expect(result.sessions.map(sessionInWords)).toEqual(['session 1: one, 2026-03-01', 'session 2']);
    expect(at(result, 2)).toMatchObject({ found: { centre: { value: 1 } }, left: { centre: { value: 0 } } });
    expect(drift(result, 2)).toContain('since session 1');
    const moved = history(
      session('one'),
      m2('centre', 'centre'),
      'release: in service\nby: kt',
      'adjust: M1\nturn: {B: in 1/8}',
      m2('centre', '1 right'),
    );
    expect(at(moved, 2).after?.what).toBe('M1 was adjusted');
    expect(drift(moved, 2)).toBe('since session 1: no comparison (M1 was adjusted)');
    const described = history(
      session('one'),
      m2('centre', 'centre'),
      'release: in service\nby: kt',
      MACHINE.replace('leg: 90 mm', 'leg: 95 mm'),
      session('two'),
      m2('centre', '1 right'),
    );
    expect(drift(described, 2)).toBe('since session 1: no comparison (the machine cell was changed)');
  });

  test('cells before the first session are a visit too, if they contain work', () => {
    expect(history(m2('centre', 'centre'), session('spring', '2026-03-01')).sessions.map(sessionInWords)).toEqual([
      'session 1',
      'session 2: spring, 2026-03-01',
    ]);
    expect(history(session('spring')).sessions).toHaveLength(1);
    expect(history().sessions).toEqual([]);
  });
});

describe('the drift from one visit to the next', () => {
  test('is as found less as left, by place, with days and uncertainty', () => {
    const { drift: drifted } = at(
      history(
        session('one', '2026-03-01'),
        m2('0.5 left', '4 left'),
        'adjust: M1\nturn: {B: in 1/8}',
        m2('0.5 right 0.5 up', '1 right'),
        session('two', '2026-03-11'),
        m2('0.5 right 0.5 up', '3 right 1 up'),
      ),
      2,
    );
    // Step 0.5 mm and placing 0.2 mm, read twice.
    const u = Math.sqrt(2 * (0.5 ** 2 / 12 + 0.2 ** 2));
    expect(drifted).toMatchObject({
      since: 1,
      days: 10,
      places: [
        { at: 'near', right: 0, up: 0, isPlain: false },
        {
          at: 'far',
          right: 2,
          up: 1,
          u: expect.closeTo(u, 12),
          size: expect.closeTo(Math.sqrt(5), 12),
          isPlain: true,
          perDay: { right: 0.2, up: 0.1, u: expect.closeTo(u / 10, 12) },
        },
      ],
      outward: { value: expect.closeTo(Math.sqrt(10) - 1, 12), u: expect.closeTo(u, 12) },
    });
  });

  test.each([
    [
      'the places that tape can tell',
      ['centre', '2 right'],
      'since session 1, 10 days: gantry far from M1 (front) 2.0 right (machine left) (each ± 0.3 mm); elsewhere no measurable drift; 2.0 ± 0.3 mm farther from the centre',
    ],
    ['nothing more than reading leaves', ['0.5 right', '0.5 down'], 'since session 1, 10 days: no measurable drift'],
    [
      'a tape that was missed says nothing',
      ['none', '2 right'],
      'since session 1, 10 days: gantry far from M1 (front) 2.0 right (machine left) (each ± 0.3 mm); 2.0 ± 0.3 mm farther from the centre',
    ],
    [
      'two tapes that were missed',
      ['none', 'none'],
      'since session 1: no comparison (no place has a complete mark in both)',
    ],
  ] as const)('in words: %s', (_, [near, far], expected) => {
    expect(
      drift(history(session('one', '2026-03-01'), CENTRED.M2, session('two', '2026-03-11'), m2(near, far)), 2),
    ).toBe(expected);
  });

  test.each([
    ['an event after the first', ['event: collision', session('two')], 'event: collision'],
    ['an event in the second', [session('two'), 'event: moved'], 'event: moved'],
    ['a turn after the last marks', ['adjust: M1\nturn: {B: in 1/8}', session('two')], 'M1 was adjusted'],
    ['a turn before the first', [session('two'), 'adjust: M1\nturn: {B: in 1/8}'], 'M1 was adjusted'],
    ['the tube', [session('two'), 'adjust: tube\nshift: 1 mm up'], 'tube was adjusted'],
    ['a lock', [session('two'), 'adjust: M1\nlock: tight'], 'M1 was locked'],
    ['a mirror taken out', [session('two'), 'care: M1\ndid: removed and cleaned'], 'M1 was removed and cleaned'],
    [
      'another machine',
      [MACHINE.replace('far: 690 mm', 'far: 700 mm'), session('two')],
      'the machine cell was changed',
    ],
    ['a cell with errors', [session('two'), 'adjust: M1\nturn: sideways'], 'a cell with errors'],
    [
      'a turn in a visit between, in which nobody shot here',
      [session('between'), 'adjust: M1\nturn: {B: in 1/8}', session('two')],
      'M1 was adjusted',
    ],
  ])('is unknown across %s', (_, between, what) => {
    expect(
      drift(
        history(session('one'), CENTRED.M2, ...between, m2('centre', '2 right')),
        between.filter((cell) => cell.startsWith('session')).length + 1,
      ),
    ).toBe(`since session 1: no comparison (${what})`);
  });

  test.each([
    ['a visit between, in which nothing moved', [session('between'), CENTRED.M1, session('two')]],
    ['the mirror behind', [session('two'), 'adjust: M2\nturn: {B: in 1/8}']],
    ['a mirror wiped where it is', [session('two'), 'care: M1\ndid: cleaned in place']],
    ['the same machine said again', [MACHINE, session('two')]],
    ['lock nuts that were found tight', [session('two'), 'adjust: M1\nlock: found tight']],
    ['a screw that is at its end', [session('two'), 'adjust: M1\nno further: {B: in}']],
  ])('is reported across %s', (_, between) => {
    const result = history(session('one'), CENTRED.M2, ...between, m2('centre', '2 right'));
    expect(at(result, result.sessions.length).drift).toMatchObject({ since: 1, places: [{}, { right: 2 }] });
  });

  test.each([
    ['no dates', undefined, undefined, undefined],
    ['one date', '2026-03-01', undefined, undefined],
    ['dates out of order', '2026-03-11', '2026-03-01', undefined],
    ['one day', '2026-03-01 09:00', '2026-03-01 17:00', 0],
  ])('%s: no rate', (_, one, two, days) => {
    const result = at(history(session('one', one), CENTRED.M2, session('two', two), m2('centre', '2 right')), 2)
      .drift as Drift;
    expect(result.days).toBe(days);
    expect(result.places.some(({ perDay }) => perDay)).toBe(false);
  });

  test('a station that no longer exists has no forecast', () => {
    const shorter = MACHINE.replace(/ {2}lens:.*\n/, '');
    const result = history(session('one'), CENTRED.lens, shorter, session('two'), CENTRED.M1);
    expect(result.sessions.map(({ stations }) => stations.map(({ name }) => name).join())).toEqual([
      'M1,M2,M3,lens',
      'M1,M2,M3',
    ]);
  });
});

describe('the forecast', () => {
  const visits = (marks: readonly (readonly [string, string, string])[], ...after: string[]) =>
    history(...marks.flatMap(([date, near, far]) => [session('visit', date), m2(near, far)]), ...after);
  const STEADY = [
    ['2026-01-01', 'centre', 'centre'],
    ['2026-03-01', 'centre', '0.5 right'],
    ['2026-05-01', 'centre', '1 right'],
  ] as const;
  const text = ({ forecasts }: SessionHistory) =>
    forecasts.map((forecast: Forecast) => `${forecast.station}: ${forecastInWords(forecast, 'mm')}`);

  test('goes on from the last marks, at the rate of the intervals, to the limit', () => {
    const [forecast] = visits(STEADY).forecasts;
    expect(forecast).toMatchObject({
      station: 'M2',
      from: '2026-05-01',
      limit: 2,
      confidence: 0.9,
      intervals: 2,
      days: 120,
      until: { days: 240, on: '2026-12-27' },
    });
    const { rates, unsure, even, chances } = forecast as Outlook;
    expect(rates[1]).toMatchObject({ at: 'far', right: expect.closeTo(1 / 120, 3), up: 0 });
    expect(unsure!.days).toBeGreaterThan(10);
    expect(even!.days).toBeGreaterThan(unsure!.days);
    expect(even!.days).toBeLessThan(140);
    expect(chances.map(({ days }) => days)).toEqual(Array.from({ length: 17 }, (_, k) => 15 * k));
    const before = (day: number) => chances.findLast(({ days }) => days < day)!;
    expect(before(unsure!.days).outside).toBeLessThanOrEqual(0.1);
    expect(before(even!.days).outside).toBeLessThanOrEqual(0.5);
  });

  test('in words', () => {
    expect(text(visits(STEADY))).toEqual([
      expect.stringMatching(
        /^M2: From 2026-0\d-\d\d on it is no longer within 2 mm with 90 % confidence\. From 2026-\d\d-\d\d on it is more likely outside than within\. \(From 2 intervals, 120 days in total\.\)$/,
      ),
    ]);
  });

  test('of a machine without drift and with little process noise ends with the forecast horizon', () => {
    const quiet = MACHINE.replace('source:', 'priors: {driftTilt: 0.01 mrad}\nsource:');
    const all = entries(
      quiet,
      LIMITS,
      ...['2026-01-01', '2026-03-01', '2026-05-01'].flatMap((date) => [session('visit', date), CENTRED.M2]),
    );
    const log = createLog();
    log.replace(all);
    expect(text(sessionHistory(all, log))).toEqual([
      'M2: Stays within 2 mm with 90 % confidence until 2026-12-27. No forecast beyond that date. (From 2 intervals, 120 days in total.)',
    ]);
  });

  test('the drift of a day comes from the machine’s own prior', () => {
    const unsure = (tilt: string) => {
      const all = entries(
        MACHINE.replace('source:', `priors: {driftTilt: ${tilt}}\nsource:`),
        LIMITS,
        ...STEADY.flatMap(([date, near, far]) => [session('visit', date), m2(near, far)]),
      );
      const log = createLog();
      log.replace(all);
      return (sessionHistory(all, log).forecasts[0] as Outlook).unsure!.days;
    };
    expect(unsure('0.2 mrad')).toBeLessThan(unsure('0.02 mrad'));
  });

  test('a correction in the last visit counts from there', () => {
    const result = visits(STEADY, 'adjust: M1\nturn: {B: in 1/16}', m2('centre', '1 left'));
    expect((result.forecasts[0] as Outlook).even?.days ?? Infinity).toBeGreaterThan(
      (visits(STEADY).forecasts[0] as Outlook).even!.days,
    );
  });

  test('a station left outside is outside now', () => {
    expect(
      text(
        visits([
          ['2026-01-01', 'centre', '1 right'],
          ['2026-03-01', 'centre', '2 right'],
          ['2026-05-01', 'centre', '3 right'],
        ]),
      )[0],
    ).toMatch(
      /^M2: As left it is not within 2 mm with 90 % confidence\. It is already more likely outside than within\./,
    );
  });

  test.each([
    ['one interval', STEADY.slice(0, 2), [], 'a trend needs two intervals'],
    [
      'two intervals of no day',
      STEADY.map(([, near, far]) => ['2026-01-01', near, far] as const),
      [],
      'a trend needs two intervals',
    ],
    ['no dates', STEADY.map(([, near, far]) => ['', near, far] as const), [], 'have no dates'],
    ['moved since', STEADY, ['adjust: M1\nturn: {B: in 1/8}'], 'Shoot the station again'],
    ['moved since, in a visit of its own', STEADY, [session('later'), 'event: collision'], 'Shoot the station again'],
    ['missed at last', [...STEADY, ['2026-06-01', 'centre', 'none']] as const, [], 'the beam missed'],
    ['no limit', STEADY, ['limits: others\nstations: {M1: {centre: 2 mm}}'], 'no centre limit'],
    ['limits that cannot be read', STEADY, ['limits: others\nstations: {M2: {centre: wide}}'], 'no centre limit'],
  ])('%s: none, and why', (_, marks, after, why) => {
    const cells = marks.flatMap(([date, near, far]) => [
      session('visit', date === '' ? undefined : date),
      m2(near, far),
    ]);
    expect(text(history(...cells, ...after))).toEqual([expect.stringContaining(why)]);
  });

  test('a station measured once has no line', () => expect(history(session('one'), CENTRED.M2).forecasts).toEqual([]));
});
