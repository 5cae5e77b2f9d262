/** The first shot of a visit, marks or power, without safety checks logged before it. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { fires } from './rule.ts';

/** Reported once per visit; a log without a session has no visit. */
export function unchecked(logged: LogEntry, { practice: { visit, hasFired } }: State): Finding | undefined {
  if (!fires(logged) || !visit || visit.isChecked || hasFired) return undefined;
  return findingAt(logged, pathTo(logged.entry.kind), 'fire.unchecked', {});
}
