/** Shifts, dates, care intervals and names. To add a case copy a line. */
import { describe, expect, test } from 'vitest';
import { isReserved, readDate, readInterval, readName, readShift } from '../../../src/workbook/quantities/index.ts';
import { INCHES, MM, problemsOf } from './context.ts';

describe('shifts', () => {
  test.each<[string, number[]]>([
    ['1.5 mm up', [0, 0, 1.5]],
    ['1.5 up', [0, 0, 1.5]],
    ['2 mm left 1 mm up', [-2, 0, 1]],
    ['1/8 in rear', [0, 3.175, 0]],
    ['1 right 2 front 3 down', [1, -2, -3]],
  ])('%s', (text, vector) => {
    expect(readShift(text, MM).value).toEqual({ vector });
  });

  test('an uncertainty, and inches', () => {
    expect(readShift('1 ± 0.5 left 2 up', MM).value).toEqual({ vector: [-1, 0, 2], u: [0.5, 0, 0] });
    expect(readShift('1 up', INCHES).value).toEqual({ vector: [0, 0, 25.4] });
  });

  test.each([
    ['', 'shift.unreadable'],
    ['2', 'shift.direction'],
    ['2 up 1', 'shift.direction at ‘1’'],
    ['1 2 up', 'shift.direction at ‘1’'],
    ['up', 'shift.length'],
    ['up 2', 'shift.order → ‘2 up’'],
    ['2 upp', 'shift.word at ‘upp’ → ‘up’'],
    ['2 centre', 'shift.word at ‘centre’'],
    ['1 up 2 down', 'shift.twice at ‘2 down’'],
    ['1 mm up, 2 mm left', 'shift.comma at ‘,’ → ‘’'],
    ['-1 mm up', 'quantity.sign → ‘1 mm down’'],
    ['1 deg up', 'quantity.dimension at ‘1 deg’'],
  ])('not %s', (text, problem) => expect(problemsOf(readShift(text, MM), text)).toEqual([problem]));
});

describe('dates', () => {
  test.each<[string, object]>([
    ['2026-03-14', { year: 2026, month: 3, day: 14, milliseconds: Date.UTC(2026, 2, 14) }],
    ['2024-02-29', { year: 2024, month: 2, day: 29, milliseconds: Date.UTC(2024, 1, 29) }],
    [
      '2026-03-14 10:20',
      {
        year: 2026,
        month: 3,
        day: 14,
        time: { hour: 10, minute: 20, second: 0 },
        milliseconds: Date.UTC(2026, 2, 14, 10, 20),
      },
    ],
    [
      '2026-03-14T10:20:30.5Z',
      {
        year: 2026,
        month: 3,
        day: 14,
        time: { hour: 10, minute: 20, second: 30.5 },
        offset: 0,
        milliseconds: Date.UTC(2026, 2, 14, 10, 20, 30, 500),
      },
    ],
    [
      '2026-03-14 10:20+01:30',
      {
        year: 2026,
        month: 3,
        day: 14,
        time: { hour: 10, minute: 20, second: 0 },
        offset: 90,
        milliseconds: Date.UTC(2026, 2, 14, 8, 50),
      },
    ],
    [
      '2026-03-14 10:20 -0800',
      {
        year: 2026,
        month: 3,
        day: 14,
        time: { hour: 10, minute: 20, second: 0 },
        offset: -480,
        milliseconds: Date.UTC(2026, 2, 14, 18, 20),
      },
    ],
  ])('%s', (text, date) => expect(readDate(text)).toEqual({ value: date, problems: [] }));

  test.each([
    ['2026-02-30', 'date.calendar'],
    ['2025-02-29', 'date.calendar'],
    ['1900-02-29', 'date.calendar'],
    ['2026-13-01', 'date.calendar'],
    ['2026-00-10', 'date.calendar'],
    ['2026-03-14 24:00', 'date.calendar'],
    ['2026-03-14 10:60', 'date.calendar'],
    ['2026-03-14 10:20+15:00', 'date.calendar'],
    ['0026-03-14', 'date.calendar'],
    ['', 'date.unreadable'],
    ['today', 'date.unreadable'],
    ['14.3.2026', 'date.unreadable'],
    ['14/3/2026', 'date.unreadable'],
    ['2026/3/4', 'date.unreadable → ‘2026-03-04’'],
    ['2026-3-14', 'date.unreadable → ‘2026-03-14’'],
    ['2026-03-14 10', 'date.unreadable'],
  ])('not %s', (text, problem) => expect(problemsOf(readDate(text), text)).toEqual([problem]));
});

describe('care intervals', () => {
  test.each<[string, object]>([
    ['every 3 months', { months: 3 }],
    ['every month', { months: 1 }],
    ['every 2 years', { months: 24 }],
    ['every 2 weeks', { days: 14 }],
    ['every 10 days', { days: 10 }],
    ['every 40 h', { hours: 40 }],
    ['every 40h', { hours: 40 }],
    ['every 0.5 hours', { hours: 0.5 }],
  ])('%s', (text, interval) => expect(readInterval(text)).toEqual({ value: interval, problems: [] }));

  test.each([
    ['', 'interval.unreadable'],
    ['monthly', 'interval.unreadable'],
    ['3 months', 'interval.unreadable'],
    ['every 1.5 months', 'interval.unreadable'],
    ['every 0 h', 'interval.unreadable'],
    ['every 3 toString', 'interval.unreadable'],
    ['every 2 mnoths', 'interval.unreadable at ‘mnoths’ → ‘months’'],
  ])('not %s', (text, problem) => expect(problemsOf(readInterval(text), text)).toEqual([problem]));
});

describe('names', () => {
  test.each(['M1', 'rear', 'A', 'corner_mount2', 'constructor'])('%s', (text) =>
    expect(readName(text).value).toBe(text),
  );
  test.each([
    ['', 'name.unreadable'],
    ['1M', 'name.unreadable'],
    ['_a', 'name.unreadable'],
    ['mür', 'name.unreadable'],
    ['rear left', 'name.unreadable → ‘rear_left’'],
    ['M-1', 'name.unreadable → ‘M_1’'],
    ['a'.repeat(101), 'name.unreadable'],
  ])('not %s', (text, problem) => expect(problemsOf(readName(text), text)).toEqual([problem]));

  test('words that mean something in an expression', () => {
    expect(['sqrt', 'mm', 'in', 'turn', 'M1', 'gap'].map(isReserved)).toEqual([true, true, true, true, false, false]);
  });
});
