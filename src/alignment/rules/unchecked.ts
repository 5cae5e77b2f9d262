/** The first shot of a visit, with no safety checks written above it. */
import type { Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { at } from './rule.ts';

/** Said once a visit; a log that opens no session is no visit. */
export function unchecked(logged: LogEntry, { practice: { visit } }: State): Finding | undefined {
  if (logged.entry.kind !== 'marks' || !visit || visit.isChecked || visit.hasFired) return undefined;
  return at(logged, 'marks', 'fire.unchecked');
}
