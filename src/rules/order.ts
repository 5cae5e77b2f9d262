/** Dates that go backwards: the log is read in file order. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';

/** Compares dates at their common precision: days, or times. */
export function order(logged: LogEntry, { date: before }: State): Finding | undefined {
  const { date } = logged.entry;
  if (date === undefined || before === undefined) return undefined;
  const [now, then] = [instant(date, before), instant(before, date)];
  return now < then ? findingAt(logged, pathTo('date'), 'date.order', { date, before }) : undefined;
}

function instant(date: string, other: string): number {
  const dayOnly = Math.min(date.length, other.length) <= 10;
  return Date.parse(dayOnly ? date.slice(0, 10) : date.replace(' ', 'T').replace(/([T]\d\d:\d\d(?::\d\d)?)$/, '$1Z'));
}
