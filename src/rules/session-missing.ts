/** Work after a release without a session cell: it begins a visit that has no name, no reason and perhaps no date. */
import { findingAt, opensVisit, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';

export function sessionMissing(logged: LogEntry, { phase }: State): Finding | undefined {
  const { entry } = logged;
  return phase === 'released' && entry.kind !== 'session' && opensVisit(entry, phase)
    ? findingAt(logged, pathTo(entry.kind), 'session.missing', {})
    : undefined;
}
