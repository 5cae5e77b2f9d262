/** The edges of a forecast are the distances at which the forecast itself gives that probability. */
import { expect, test } from 'vitest';
import { createLog } from '../../src/evaluation/index.ts';
import type { Outlook } from '../../src/model/index.ts';
import { recentHistory } from '../../src/history/index.ts';
import { visitsFigureOf } from '../../src/history/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { entries } from '../support/entries.ts';

const MARKS = [
  ['2026-01-01', 'centre'],
  ['2026-03-01', '0.5 right 0 up'],
  ['2026-05-01', '1 right 0 up'],
] as const;

function found(limit: number) {
  const all = entries(
    MACHINE,
    LIMITS.replace('M2: {centre: 2 mm', `M2: {centre: ${limit} mm`),
    ...MARKS.flatMap(([date, far]) => [
      `session: look\ndate: ${date}`,
      `marks: M2\nshots: {near: centre, far: ${far}}`,
    ]),
  );
  const log = createLog();
  log.replace(all);
  const history = recentHistory(all, log);
  return {
    figure: visitsFigureOf(history, all, log, 'M2', 'mm'),
    outlook: history.forecasts.find(({ station }) => station === 'M2') as Outlook,
  };
}

test('at the last marks: a limit at either edge is met with the probability of that edge', () => {
  const {
    figure: {
      ahead: [start],
      confidence,
    },
  } = found(2);
  const outside = (limit: number) => found(limit).outlook.chances[0]!.outside;
  expect(confidence).toBe(0.9);
  expect(Math.abs(outside(start!.most) - 0.1)).toBeLessThan(0.03);
  expect(Math.abs(outside(start!.least) - 0.9)).toBeLessThan(0.03);
});

test('to the end of the forecast if the limit holds until then', () => {
  const { figure, outlook } = found(20);
  expect(figure.unsure).toBeUndefined();
  expect(figure.ahead.at(-1)!.on).toBe(outlook.until.on);
});

test('otherwise only to the day on which the probability falls below the bound', () => {
  const { figure } = found(1.2);
  expect(figure.ahead.map(({ days }) => days)).toEqual([0]);
});
