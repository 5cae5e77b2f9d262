/** The marks cell of a station's last fresh reading. */
import type { LogEntry } from '../model/index.ts';
import type { StationVerdict } from '../verdict/index.ts';

export function lastEntry(entries: readonly LogEntry[], { fresh }: StationVerdict): LogEntry | undefined {
  const last = fresh.at(-1);
  return last && entries[last.order];
}

/** The last marks cell of a station, fresh or stale. */
export function lastMarksOf(entries: readonly LogEntry[], name: string): LogEntry | undefined {
  return entries.findLast(({ entry }) => entry.kind === 'marks' && entry.station === name);
}

/** Coverage factor: chance exceeds it once in a thousand times over both axes (normal, two-sided). */
export const SIGNIFICANT = 3.5;
