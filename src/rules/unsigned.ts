/** Signed off or withdrawn without a name: `by` is missing or empty. */
import { findingAt, type Finding, type LogEntry } from '../model/index.ts';

export function unsigned(logged: LogEntry): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'release' || (entry.by ?? '').trim() !== '') return undefined;
  return findingAt(logged, Object.hasOwn(entry.spans, 'by') ? 'by' : 'release', 'by.missing', {});
}
