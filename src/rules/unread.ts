/** A cell with errors may have moved something: what counts as moved is reported at the cell. */
import { findingAt, ROOT, type Finding, type LogEntry } from '../model/index.ts';
import { unreadReachOn, type Reach, type State } from '../estimate/index.ts';

export function unread(logged: LogEntry, { system }: State): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'unread' || !system) return undefined;
  const reach = unreadReachOn(entry, system);
  if (reach === 'nothing') return undefined;
  return findingAt(logged, ROOT, 'log.unread', { reach: inWords(reach) });
}

function inWords(reach: Exclude<Reach, 'nothing'>): string {
  if (reach === 'everything') return 'all stations';
  return 'station' in reach ? `the marks on ${reach.station}` : `${reach.part} and the stations after it`;
}
