/** Care whose interval had run out when the machine was put back in service, by the dates of the log. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { overdueOn } from './care-due.ts';
import type { State } from '../estimate/index.ts';
import { isReturn } from './rule.ts';

export function overdue(logged: LogEntry, state: State): Finding[] {
  const day = (logged.entry.date ?? state.date)?.slice(0, 10);
  if (!isReturn(logged) || day === undefined) return [];
  return overdueOn(day, state).map((care) => findingAt(logged, pathTo('release'), 'care.overdue', care));
}
