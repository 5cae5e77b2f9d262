/** Put back in service with lock nuts loose or still to be tightened: the mirror drifts in the first hours of work. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { untightened } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';
import { listed, nameInCell } from '../words/index.ts';
import { isReturn } from './rule.ts';

export function unlocked(logged: LogEntry, state: State): Finding | undefined {
  const parts = isReturn(logged) ? untightened(state) : [];
  if (parts.length === 0) return undefined;
  return findingAt(logged, pathTo('release'), 'release.loose', {
    parts: listed(parts),
    cell: parts.map((part) => `adjust: ${nameInCell(part)}\nlock: tight\n`).join('---\n'),
  });
}
