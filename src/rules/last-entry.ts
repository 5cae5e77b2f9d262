/** The marks cell that a standing's fresh readings end with. */
import type { LogEntry } from '../model/index.ts';
import type { StationVerdict } from '../verdict/index.ts';

export function lastEntry(entries: readonly LogEntry[], { fresh }: StationVerdict): LogEntry | undefined {
  const last = fresh.at(-1);
  return last && entries[last.order];
}

/** The last marks cell of a station, whether or not it holds. */
export function lastMarksOf(entries: readonly LogEntry[], name: string): LogEntry | undefined {
  return entries.findLast(({ entry }) => entry.kind === 'marks' && entry.station === name);
}

/** Standard uncertainties: chance goes this far once in a thousand times over both axes (normal, two-sided). */
export const SIGNIFICANT = 3.5;
