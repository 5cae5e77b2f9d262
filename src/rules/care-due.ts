/** When care is due, on the calendar of the log: nothing here asks the clock, so a file says the same on any day. */
import { dayOf, intervalAfter } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { nameInCell } from '../words/index.ts';

/** The facts of a finding. */
export type CareDue = Readonly<Record<'part' | 'last' | 'due' | 'cell', string>>;

/**
 * What was due before a day, `2026-03-14`, and the cell that logs it done that day. A part that the log never saw cared
 * for has no date to count from.
 */
export function overdueOn(day: string, { system, practice }: State): CareDue[] {
  return Object.entries(system?.machine.care ?? {}).flatMap(([part, interval]) => {
    const last = practice.cared.get(part);
    // Hours of firing are nowhere in the log.
    const due = last === undefined || 'hours' in interval ? undefined : intervalAfter(last, interval);
    return due !== undefined && due < day
      ? [{ part, last: dayOf(last!), due, cell: `care: ${nameInCell(part)}\ndid: inspected\ndate: ${day}\n` }]
      : [];
  });
}
