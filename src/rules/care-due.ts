/** When care is due, by the dates of the log. The clock is not used, so a file has the same findings on any day. */
import { dayOf, addInterval } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { nameInCell } from '../words/index.ts';

/** The facts of a finding. */
export type CareDue = Readonly<Record<'part' | 'last' | 'due' | 'cell', string>>;

/**
 * The care that was due before a day, `2026-03-14`, and the cell that logs it on that day. A part without any logged
 * care has no date to count from.
 */
export function overdueOn(day: string, { system, practice }: State): CareDue[] {
  return Object.entries(system?.machine.care ?? {}).flatMap(([part, interval]) => {
    const last = practice.cared.get(part);
    // The log does not contain hours of firing.
    const due = last === undefined || 'hours' in interval ? undefined : addInterval(last, interval);
    return due !== undefined && due < day
      ? [{ part, last: dayOf(last!), due, cell: `care: ${nameInCell(part)}\ndid: inspected\ndate: ${day}\n` }]
      : [];
  });
}
