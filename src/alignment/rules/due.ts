/** Care that was due when the visit began which is on now, and has not been logged in it. */
import type { Finding, LogEntry } from '../../model/index.ts';
import { overdueOn } from '../care-due.ts';
import { at, isReturn, type Outcome } from './rule.ts';

/** Once the machine is back in service, its release says it. */
export function due({ state, entries }: Outcome): Finding[] {
  const last = entries.findLast((logged) => isReturn(logged) || logged.entry.kind === 'session');
  const day = last && dayOf(last, entries);
  if (!last || last.entry.kind !== 'session' || day === undefined) return [];
  return overdueOn(day, state).map((care) => at(last, 'session', 'care.overdue', care));
}

/** Its own date, or the last one above it. */
function dayOf(session: LogEntry, entries: readonly LogEntry[]): string | undefined {
  return entries.slice(0, entries.indexOf(session) + 1).findLast(({ entry }) => entry.date !== undefined)?.entry.date?.slice(0, 10);
}
