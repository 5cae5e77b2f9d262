/** What is due on a day: care by date and by hours of work, and what drift will bring out of limits. */
import { describe, expect, test } from 'vitest';
import {
  byUrgency,
  careDue,
  careHistory,
  driftDue,
  dueInBrief,
  dueInWords,
  whenInWords,
} from '../../src/history/index.ts';
import type { Forecast } from '../../src/model/index.ts';
import { MACHINE } from '../support/log.ts';
import { entries } from '../support/entries.ts';

const TODAY = '2026-05-20';
const machine = (care: string) => `${MACHINE}care: {${care}}\n`;
const session = (name: string, date: string, hours?: string) =>
  `session: ${name}\ndate: ${date}\n${hours === undefined ? '' : `hours: ${hours}\n`}`;
const care = (part: string, more = '') => `care: ${part}\ndid: cleaned in place\n${more}`;

function due(interval: string, ...cells: string[]): string {
  const [item] = careDue(careHistory(entries(machine(`lens: ${interval}`), ...cells)), TODAY);
  return `${item!.urgency}: ${whenInWords(item!, TODAY)}`;
}

describe('care by date', () => {
  const on = (date: string) => [session('one', date), care('lens')];
  test.each([
    ['2026-02-20', 'soon: due today'],
    ['2026-02-19', 'overdue: overdue since 2026-05-19'],
    ['2026-02-21', 'soon: 2026-05-21, in 1 day'],
    ['2026-03-19', 'soon: 2026-06-19, in 30 days'],
    ['2026-03-20', 'later: 2026-06-20, in 31 days'],
  ])('every 3 months, last done on %s: %s', (date, expected) =>
    expect(due('every 3 months', ...on(date))).toBe(expected),
  );

  test('never done, or done without a date, is not known', () => {
    expect(due('every month')).toBe('unknown: not known: no care in this log yet');
    expect(due('every month', 'session: one\n', care('lens'))).toBe('unknown: not known: the last care has no date');
  });
});

describe('care by hours of work', () => {
  test('counts from the last care that did something, to the last reading of the counter', () => {
    const cells = [session('one', '2026-03-16', '1204 h'), care('lens'), session('two', '2026-05-16', '1240 h')];
    // 36 h in 61 days: 4 h more take 6 days.
    expect(due('every 40 h', ...cells)).toBe('soon: in 4 h, at 1244 h, about 2026-05-22');
    expect(due('every 100 h', ...cells)).toBe('later: in 64 h, at 1304 h, about 2026-09-01');
    const looked = [...cells, 'care: lens\nfound: dusty\n'];
    expect(due('every 40 h', ...looked)).toBe('soon: in 4 h, at 1244 h, about 2026-05-22');
  });

  test('where the expected day has passed since the last reading, it is probably due', () => {
    const cells = [session('one', '2026-03-01', '1204 h'), care('lens'), session('two', '2026-05-01', '1240 h')];
    expect(due('every 40 h', ...cells)).toBe('soon: at 1244 h, probably since 2026-05-07');
  });

  test('past the counter it is overdue, and says since when', () => {
    const cells = [session('one', '2026-03-01', '1204 h'), care('lens'), session('two', '2026-05-01', '1250 h')];
    expect(due('every 40 h', ...cells)).toBe('overdue: overdue since 1244 h');
  });

  test('hours go on adding up where the counter was changed', () => {
    const cells = [
      session('one', '2026-03-01', '1204 h'),
      care('lens'),
      session('two', '2026-04-01', '1214 h'),
      'event: new hour counter\nhours: new 0 h\n',
      session('three', '2026-05-01', '26 h'),
    ];
    // 10 h on the old counter and 26 h on the new one.
    expect(due('every 40 h', ...cells)).toMatch(/^soon: at 30 h, probably since/);
  });

  test('the hours of another visit are not those of this one', () => {
    const cells = [session('one', '2026-03-01', '1204 h'), session('two', '2026-04-01'), care('lens')];
    expect(due('every 40 h', ...cells)).toBe('unknown: not known: the hours of work are not logged');
  });

  test('from one reading nobody knows how fast hours pass: a shift a day is taken', () => {
    const cells = [session('one', '2026-05-01', '100 h'), care('lens')];
    expect(due('every 240 h', ...cells)).toBe('soon: in 240 h, at 340 h');
    expect(due('every 241 h', ...cells)).toBe('later: in 241 h, at 341 h');
  });

  test('`care` and the record state the same', () => {
    const of = (now: string) =>
      dueInWords(
        careHistory(
          entries(
            machine('lens: every 40 h'),
            session('one', '2026-03-01', '1204 h'),
            care('lens'),
            session('two', '2026-05-01', now),
          ),
        ).parts[0]!,
        TODAY,
      );
    expect(of('1240 h')).toBe('every 40 h of work; due at 1244 h, in 4 h');
    expect(of('1250 h')).toBe('every 40 h of work; overdue since 1244 h');
  });
});

test('drift is due on the first day without the required confidence; a forecast without one is not', () => {
  const forecast = (station: string, on: string) => ({ station, unsure: { days: 1, on } }) as Forecast;
  const none: Forecast = { station: 'M1', because: 'intervals' };
  expect(
    driftDue([none, forecast('M2', '2026-06-01'), forecast('M3', '2027-01-01')], TODAY).map((item) => [
      item.urgency,
      dueInBrief(item, TODAY),
    ]),
  ).toEqual([
    ['soon', 'M2 drifts out about 2026-06-01'],
    ['later', 'M3 drifts out about 2027-01-01'],
  ]);
});

test('the most urgent comes first, in few words', () => {
  const history = careHistory(
    entries(
      machine('M1: every month, M2: every 3 months, lens: every 40 h, M3: every 5 years'),
      session('one', '2026-03-07', '1204 h'),
      care('M1'),
      care('M2'),
      care('lens'),
      session('two', '2026-05-18', '1240 h'),
    ),
  );
  expect(byUrgency(careDue(history, TODAY)).map((item) => dueInBrief(item, TODAY))).toEqual([
    'M1 overdue since 2026-04-07',
    'lens in 4 h',
    'M2 in 18 days',
    'M3 not known: no care in this log yet',
  ]);
});
