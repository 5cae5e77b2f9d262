/** Care that was due when the visit began, and was not logged in it. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { overdueOn } from './care-due.ts';
import { isReturn, type Outcome } from './rule.ts';

/** Once the machine is back in service, its release reports it. */
export function due({ state, entries, visit }: Outcome): Finding[] {
  const session = visit.find(({ entry }) => entry.kind === 'session');
  const day = session && dayOf(session, entries);
  if (!session || day === undefined || visit.some(isReturn)) return [];
  return overdueOn(day, state).map((care) => findingAt(session, pathTo('session'), 'care.overdue', care));
}

/** Its own date, or the last one above it. */
function dayOf(session: LogEntry, entries: readonly LogEntry[]): string | undefined {
  return entries
    .slice(0, entries.indexOf(session) + 1)
    .findLast(({ entry }) => entry.date !== undefined)
    ?.entry.date?.slice(0, 10);
}
