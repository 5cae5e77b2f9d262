/** A cell that cannot be read may have moved something: what counts as moved is said at the cell. */
import type { Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { at } from './rule.ts';

const MOVES = new Set(['adjust', 'care']);
const MOVES_ALL = new Set(['machine', 'event', 'session', undefined]);

export function unread(logged: LogEntry, { system }: State): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'unread' || !system) return undefined;
  const moves = entry.of !== undefined && MOVES.has(entry.of);
  if (!moves && !MOVES_ALL.has(entry.of)) return undefined;
  const reach = moves && entry.part !== undefined ? `${entry.part} and the stations after it` : 'all stations';
  return at(logged, '', 'log.unread', { reach });
}
