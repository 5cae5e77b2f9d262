/** The first shot of a visit, marks or power, with no safety checks written above it. */
import { findingAt, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { fires } from './rule.ts';

/** Said once a visit; a log that opens no session is no visit. */
export function unchecked(logged: LogEntry, { practice: { visit, hasFired } }: State): Finding | undefined {
  if (!fires(logged) || !visit || visit.isChecked || hasFired) return undefined;
  return findingAt(logged, logged.entry.kind, 'fire.unchecked', {});
}
