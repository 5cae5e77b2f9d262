/** Care whose interval had run out when the machine went back to work, by the dates of the log. */
import type { CareInterval, Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { at, isReturn } from './rule.ts';

/** A part that the log never saw cared for has no date to count from. */
export function overdue(logged: LogEntry, { system, practice, date: before }: State): Finding[] {
  const date = (logged.entry.date ?? before)?.slice(0, 10);
  if (!isReturn(logged) || !system || date === undefined) return [];
  return Object.entries(system.machine.care).flatMap(([part, interval]) => {
    const last = practice.cared.get(part)?.slice(0, 10);
    const due = last === undefined ? undefined : dueOn(last, interval);
    return due !== undefined && due < date ? [at(logged, 'release', 'care.overdue', { part, last: last!, due, date })] : [];
  });
}

/** The log keeps no hours of firing. A day that the month does not have is the first of the next. */
function dueOn(last: string, interval: CareInterval): string | undefined {
  if ('hours' in interval) return undefined;
  const due = new Date(`${last}T00:00Z`);
  if ('months' in interval) due.setUTCMonth(due.getUTCMonth() + interval.months);
  else due.setUTCDate(due.getUTCDate() + interval.days);
  return Number.isNaN(due.getTime()) ? undefined : due.toISOString().slice(0, 10);
}
