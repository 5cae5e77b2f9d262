/** Put back in service with a lock nut loose: the mirror walks with the first hours of work. */
import type { Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { listed, nameInCell } from '../words.ts';
import { at, isReturn } from './rule.ts';

export function unlocked(logged: LogEntry, { loose }: State): Finding | undefined {
  if (!isReturn(logged) || loose.size === 0) return undefined;
  const parts = [...loose];
  return at(logged, 'release', 'release.loose', { parts: listed(parts), cell: parts.map((part) => `adjust: ${nameInCell(part)}\nlock: tight\n`).join('---\n') });
}
