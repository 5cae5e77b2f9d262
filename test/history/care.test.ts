/** The care history: completed care, due dates, and the loss of each optic by power readings. */
import { describe, expect, test } from 'vitest';
import { arrivalInWords, careInWords, careHistory, careSentences, dueInWords } from '../../src/history/index.ts';
import { MACHINE } from '../support/log.ts';
import { entries } from '../support/entries.ts';

const WITH_NOZZLE = MACHINE.replace('mounts:', '  nozzle: {leg: 50 mm, aperture: 5 mm}\nmounts:');
const historyOf = (...cells: string[]) => careHistory(entries(...cells));
const machine = (care: string) => `${MACHINE}care: {${care}}\n`;
const session = (name: string, date?: string) => `session: ${name}\n${date === undefined ? '' : `date: ${date}\n`}`;
const power = (station: string, ...readings: number[]) =>
  `power: ${station}\nreading: [${readings.map((reading) => `${reading} W`).join(', ')}]\n`;
const care = (part: string, did: string) => `care: ${part}\ndid: ${did}\n`;

describe('when the next care is due', () => {
  const due = (interval: string, ...cells: string[]) =>
    dueInWords(historyOf(machine(`M1: ${interval}`), ...cells).parts[0]!, '2026-06-07');
  const on = (date: string) => [session('one', date), care('M1', 'inspected')];

  test.each([
    ['every 3 months', on('2026-03-07'), 'every 3 months; due today'],
    ['every 3 months', on('2026-03-06'), 'every 3 months; overdue since 2026-06-06'],
    // The last day of a month that is too short.
    ['every 6 months', on('2026-08-31'), 'every 6 months; due 2027-02-28'],
    ['every 6 months', on('2027-08-31'), 'every 6 months; due 2028-02-29'],
    ['every year', on('2028-02-29'), 'every 12 months; due 2029-02-28'],
    ['every 2 weeks', on('2026-12-24 23:50-10:00'), 'every 2 weeks; due 2027-01-07'],
    ['every 3 days', on('2026-06-06'), 'every 3 days; due 2026-06-09'],
    [
      'every month',
      [session('one', '2026-01-01'), care('M1', 'inspected\ndate: 2026-06-30')],
      'every month; due 2026-07-30',
    ],
    [
      'every month',
      [
        session('later', '2026-06-20'),
        care('M1', 'inspected'),
        session('written afterwards', '2026-01-01'),
        care('M1', 'inspected'),
      ],
      'every month; due 2026-07-20',
    ],
    ['every 40 h', on('2026-03-07'), 'every 40 h of work; the hours of work are not logged'],
    ['every month', [session('one', '2026-03-07'), care('M2', 'inspected')], 'every month; no care in this log yet'],
    ['every month', [session('one'), care('M1', 'inspected')], 'every month; the last care has no date'],
    // An earlier visit's day is not this one's.
    [
      'every month',
      [session('one', '2026-03-07'), session('two'), care('M1', 'inspected')],
      'every month; the last care has no date',
    ],
    ['every 999999 months', on('2026-03-07'), 'every 999999 months; due date too far in the future'],
  ])('%s after %j: %s', (interval, cells, expected) => expect(due(interval, ...cells)).toBe(expected));
});

test('what was done to a part, the oldest first, with its session', () => {
  const { parts } = historyOf(
    MACHINE,
    session('one', '2026-03-07'),
    'care: lens\nfound: hazy\ndid: removed and cleaned\nwith: lens tissue\nrefit: {flat side: down, ring: snug}\nby: jv',
    session('two'),
    care('lens', 'inspected'),
  );
  expect(
    parts.map(({ part, cares }) => [part, cares.map((one) => `${one.session} ${one.date ?? '-'} ${careInWords(one)}`)]),
  ).toEqual([
    [
      'lens',
      [
        '1 2026-03-07 found hazy, removed and cleaned with lens tissue; flat side down, ring snug; by jv',
        '2 - inspected',
      ],
    ],
  ]);
});

test.each([
  ['found: dusty\ndid: inspected', 'dusty'],
  ['found: dusty\ndid: cleaned in place', undefined],
  ['found: pitted\ndid: cleaned in place', 'pitted'],
  ['found: cracked\ndid: replaced', undefined],
  ['found: clean', undefined],
  ['found: scratched\ndid: removed and cleaned', 'scratched'],
  ['found: burnt\ndid: tightened', 'burnt'],
  ['found: loose\ndid: cleaned in place', 'loose'],
  ['found: loose\ndid: tightened', undefined],
])('a mirror with %j is left %s', (text, left) => {
  expect(historyOf(MACHINE, session('one'), `care: M1\n${text}`).parts[0]!.left).toBe(left);
});

describe('what passes from one station to the next', () => {
  const transmission = (...cells: string[]) =>
    historyOf(...cells).transmissions.map(
      ({ through, value, to }) => `${through.join('+')} ${value.toFixed(3)} in ${to.session}`,
    );

  test.each([
    [
      'each mirror between neighbours',
      [MACHINE, session('one'), power('M1', 80), power('M2', 78), power('M3', 60)],
      ['M1 0.975 in 1', 'M2 0.769 in 1'],
    ],
    [
      'in any order of the readings',
      [MACHINE, session('one'), power('M3', 60), power('M1', 80), power('M2', 78)],
      ['M1 0.975 in 1', 'M2 0.769 in 1'],
    ],
    [
      'several where none was measured between',
      [MACHINE, session('one'), power('M1', 80), power('M3', 60)],
      ['M1+M2 0.750 in 1'],
    ],
    [
      'a lens that ends the path is measured through',
      [MACHINE, session('one'), power('M3', 80), power('lens', 60)],
      ['M3+lens 0.750 in 1'],
    ],
    [
      'a lens before a nozzle is not',
      [WITH_NOZZLE, session('one'), power('M3', 80), power('lens', 72), power('nozzle', 54)],
      ['M3 0.900 in 1', 'lens 0.750 in 1'],
    ],
    [
      'before and after the cleaning',
      [MACHINE, session('one'), power('M1', 80), power('M2', 60), care('M1', 'cleaned in place'), power('M2', 76)],
      ['M1 0.750 in 1', 'M1 0.950 in 1'],
    ],
    [
      'not across a cleaning of it',
      [MACHINE, session('one'), power('M2', 60), care('M2', 'cleaned in place'), power('M3', 59), power('M1', 80)],
      ['M1 0.750 in 1', 'M2 0.983 in 1'],
    ],
    [
      'not when the tube was moved between',
      [MACHINE, session('one'), power('M1', 80), 'adjust: tube\nshift: 1 mm up', power('M2', 60)],
      [],
    ],
    [
      'not from one session to another',
      [MACHINE, session('one'), power('M1', 80), session('two'), power('M2', 60)],
      [],
    ],
    ['not across an event', [MACHINE, session('one'), power('M1', 80), 'event: collision', power('M2', 60)], []],
    ['not across a cell with errors', [MACHINE, session('one'), power('M1', 80), 'adjust: M9', power('M2', 60)], []],
    [
      'where no power arrives nothing is said',
      [MACHINE, session('one'), power('M1', 80), power('M2', 0), power('M3', 60)],
      ['M1+M2 0.750 in 1'],
    ],
    ['nor where none leaves', [MACHINE, session('one'), power('M1', 0), power('M2', 0)], []],
    ['without a session cell', [MACHINE, power('M1', 80), power('M2', 60)], ['M1 0.750 in 1']],
  ])('%s', (_, cells, expected) => expect(transmission(...cells).toSorted()).toEqual(expected.toSorted()));
});

describe('the gain of a cleaning, and what else was done', () => {
  const arrivals = (...cells: string[]) =>
    historyOf(MACHINE, session('one'), ...cells).arrivals.map((one) => arrivalInWords(one));

  test('is reported for the station behind it', () => {
    expect(arrivals(power('M2', 60, 60, 60), care('M1', 'cleaned in place'), power('M2', 75, 75, 75))).toEqual([
      expect.stringMatching(/^25\.0 ± 3\.\d % more than before; between: M1 cleaned$/),
    ]);
  });

  test('names what was moved as well', () => {
    expect(
      arrivals(
        power('M3', 60),
        'adjust: M1\nturn: {A: in 1/4}',
        care('M2', 'cleaned in place'),
        'adjust: M3\nturn: {A: in 1/4}',
        power('M3', 75),
      )[0],
    ).toMatch(/; between: M1 adjusted, M2 cleaned$/);
  });

  test('is empty where the meter cannot resolve it', () => {
    expect(arrivals(power('M2', 60), care('M1', 'cleaned in place'), power('M2', 61))).toEqual([
      expect.stringMatching(/^no measurable change \(1\.7 ± .* % more\); between: M1 cleaned$/),
    ]);
  });

  test('two readings with nothing between are no change', () =>
    expect(arrivals(power('M2', 60), power('M2', 75))).toEqual([]));

  test('between sessions the same station is compared as left and as found', () => {
    expect(arrivals(power('lens', 60), session('two'), 'event: new tube', power('lens', 75))).toEqual([
      expect.stringMatching(/^25\.0 ± .* % more than in session 1; between: new tube$/),
    ]);
  });
});

describe('against earlier sessions', () => {
  const then = [
    MACHINE,
    session('one', '2026-01-10'),
    power('M1', 80, 80, 80),
    power('M2', 78, 78, 78),
    power('M3', 76, 76, 76),
  ];
  const now = [session('two', '2026-07-10'), power('M1', 79, 79, 79), power('M2', 60, 60, 60), power('M3', 58, 58, 58)];

  test('the optic that lost most is named with its loss', () => {
    const history = historyOf(...then, ...now);
    expect(history.changes.map(({ through, value }) => `${through.join()} ${value.toFixed(3)}`)).toEqual([
      'M1 -0.216',
      'M2 -0.008',
    ]);
    expect(careSentences(history)).toEqual([
      expect.stringMatching(/^Largest loss at M1: 21\.6 ± 3\.\d points less than in session 1 \(97\.5 ± 2\.\d %\)\.$/),
      expect.stringMatching(/^Lowest transmission at M1: 75\.9 ± /),
    ]);
  });

  test('and what the cleaning brought back', () => {
    expect(careSentences(historyOf(...then, ...now, care('M1', 'cleaned in place'), power('M2', 77)))[0]).toMatch(
      /; later in the session 97\.5 ± /,
    );
  });

  test.each([
    [
      'a loss that is no larger than its uncertainty',
      [...then, session('two'), power('M1', 80), power('M2', 76), power('M3', 74)],
      2,
    ],
    ['a mirror that was replaced since is another', [...then, care('M1', 'replaced'), ...now], 1],
    ['so is another machine', [...then, MACHINE.replace('leg: 90 mm', 'leg: 95 mm'), ...now], 0],
    ['one session has nothing to be compared with', then, 0],
  ])('%s: nothing is named', (_, cells, compared) => {
    const history = historyOf(...cells);
    expect(history.changes).toHaveLength(compared);
    expect(history.worn).toBeUndefined();
  });
});

test('a log without care or power is an empty history', () => {
  expect(careHistory([])).toEqual({ parts: [], power: [], arrivals: [], transmissions: [], changes: [] });
  expect(historyOf('note: hello')).toEqual(careHistory([]));
});
