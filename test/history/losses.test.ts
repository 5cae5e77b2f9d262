/** Optics that lose far more than clean ones: which, with what probability, and the effect of later readings. */
import { describe, expect, test } from 'vitest';
import { powerLosses } from '../../src/history/index.ts';
import { bookOf } from '../support/workbook.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { entries } from '../support/entries.ts';

const session = (name: string) => `session: ${name}\n`;
const power = (station: string, ...readings: number[]) =>
  `power: ${station}\nreading: [${readings.map((reading) => `${reading} W`).join(', ')}]\n`;
const care = (part: string, did: string) => `care: ${part}\ndid: ${did}\n`;
const losses = (...cells: string[]) =>
  powerLosses(entries(MACHINE, session('one'), ...cells)).map(
    ({ through, transmission: { value }, order }) => `${order} ${through.join('+')} ${value.toFixed(2)}`,
  );

describe('which part', () => {
  test.each([
    [
      'one mirror, between its neighbours',
      [power('M1', 58, 57), power('M2', 41, 40), power('lens', 38, 39)],
      ['3 M1 0.70'],
    ],
    [
      'all that lie between where it was measured',
      [power('M1', 58, 57), power('lens', 38, 39)],
      ['3 M1+M2+M3+lens 0.67'],
    ],
    ['in any order of the readings', [power('M2', 41, 40), power('M1', 58, 57)], ['3 M1 0.70']],
    ['two of them', [power('M1', 60, 60), power('M2', 45, 45), power('M3', 30, 30)], ['3 M1 0.75', '4 M2 0.67']],
    ['none where all are clean', [power('M1', 60), power('M2', 59), power('M3', 58.2), power('lens', 57)], []],
    ['none where nothing arrived', [power('M1', 60), power('M2', 0)], []],
    [
      'the last readings of a visit',
      [power('M1', 60, 60), power('M2', 40, 40), care('M1', 'cleaned in place'), power('M2', 59, 59)],
      [],
    ],
    [
      'as found, where nobody measured again',
      [power('M1', 60, 60), power('M2', 40, 40), care('M1', 'cleaned in place')],
      ['3 M1 0.67'],
    ],
  ])('%s', (_, cells, expected) => expect(losses(...cells)).toEqual(expected));
});

describe('only where the loss is beyond what the meter leaves open', () => {
  test.each([
    ['13 % by one reading each', [power('M1', 60), power('M2', 52)], 0],
    ['20 % by one reading each', [power('M1', 60), power('M2', 47.5)], 1],
    ['15 % by one reading each', [power('M1', 60), power('M2', 51)], 0],
    ['18 % by many equal readings', [power('M1', ...times(8, 60)), power('M2', ...times(8, 49.2))], 1],
    ['8 % by many equal readings', [power('M1', ...times(8, 60)), power('M2', ...times(8, 55.2))], 0],
  ])('%s', (_, cells, count) => expect(losses(...cells)).toHaveLength(count));

  test('the whole interval lies below nine tenths of what clean optics transmit', () => {
    const [loss] = powerLosses(entries(MACHINE, session('one'), power('M1', 58, 57), power('M2', 41, 40)));
    expect(loss!.clean).toBeCloseTo(0.985, 10);
    expect(loss!.transmission.value + loss!.transmission.expanded).toBeLessThan(0.9 * 0.985);
  });
});

function times(count: number, value: number): number[] {
  return Array.from({ length: count }, () => value);
}

test('a later visit changes nothing of an earlier one, however its readings scatter', () => {
  const first = [power('M1', 60), power('M2', 47.5)];
  const wild = [session('two'), power('M1', 60, 20, 90), power('M2', 58, 10, 80)];
  expect(powerLosses(entries(MACHINE, session('one'), ...first, ...wild))[0]).toEqual(
    powerLosses(entries(MACHINE, session('one'), ...first))[0],
  );
});

test('a bare aperture loses no power itself', () => {
  const machine = MACHINE.replace('  lens:', '  pinhole: {leg: 20 mm, aperture: 5 mm}\n  lens:');
  expect(
    powerLosses(entries(machine, session('one'), power('pinhole', 60, 60), power('lens', 40, 40))).map(
      ({ through }) => through,
    ),
  ).toEqual([['lens']]);
});

test('is reported at the reading, with the part, its transmission and where to look', () => {
  const book = bookOf(
    [MACHINE, LIMITS, session('one'), power('M1', 58, 57), power('M2', 41, 40), power('lens', 20, 21)].join('---\n'),
  );
  const losses = book.findings().filter(({ code }) => code === 'power.loss');
  expect(losses.map(({ cell, facts }) => [cell, facts['through'], facts['look']])).toEqual([
    [4, 'M1 passes', 'Inspect M1'],
    [5, 'M2, M3 and lens together pass', 'Measure between them to find which one, and inspect it'],
  ]);
  expect(losses[0]!.facts['share']).toMatch(/^70\.4 ± \d\.\d %$/);
});
