/** When care is due, on the calendar of the log: nothing here asks the clock, so a file says the same on any day. */
import type { CareInterval } from '../model/index.ts';
import type { State } from './state.ts';
import { nameInCell } from './words.ts';

/** The facts of a finding. */
export type CareDue = Readonly<Record<'part' | 'last' | 'due' | 'cell', string>>;

/**
 * What was due before a day, `2026-03-14`, and the cell that logs it done that day. A part that the log never saw cared
 * for has no date to count from.
 */
export function overdueOn(day: string, { system, practice }: State): CareDue[] {
  return Object.entries(system?.machine.care ?? {}).flatMap(([part, interval]) => {
    const last = practice.cared.get(part)?.slice(0, 10);
    const due = last === undefined ? undefined : dueAfter(last, interval);
    return due !== undefined && due < day ? [{ part, last: last!, due, cell: `care: ${nameInCell(part)}\ndid: inspected\ndate: ${day}\n` }] : [];
  });
}

/** Hours of firing are nowhere in the log. A month that is too short ends the interval on its last day. */
function dueAfter(last: string, interval: CareInterval): string | undefined {
  if ('hours' in interval) return undefined;
  const [year, month, day] = last.split('-').map(Number) as [number, number, number];
  const due = 'days' in interval
    ? Date.UTC(year, month - 1, day + interval.days)
    : Date.UTC(year, month - 1 + interval.months, Math.min(day, daysIn(year, month + interval.months)));
  return due <= LAST ? new Date(due).toISOString().slice(0, 10) : undefined;
}

/** Days are compared as text, which has four places for a year. */
const LAST = Date.UTC(9999, 11, 31);

/** @param month 1 is January; more than 12 run on into the next years */
function daysIn(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}
