/** Signed off or withdrawn without a name: `by` is missing or empty. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';

const BY = pathTo('by');

export function unsigned(logged: LogEntry): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'release' || (entry.by ?? '').trim() !== '') return undefined;
  return findingAt(logged, Object.hasOwn(entry.spans, BY) ? BY : pathTo('release'), 'by.missing', {});
}
