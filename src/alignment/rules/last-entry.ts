/** The marks cell that a standing's fresh readings end with. */
import type { LogEntry } from '../../model/index.ts';
import type { Standing } from '../report.ts';

export function lastEntry(entries: readonly LogEntry[], { fresh }: Standing): LogEntry | undefined {
  const last = fresh.at(-1);
  return last && entries[last.order];
}
