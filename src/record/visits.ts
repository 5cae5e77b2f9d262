/** The log cut into visits: each begins with its session cell. What was done before the first of them is a visit without a name. */
import { dayOf, type Kind, type LogEntry, type SessionEntry } from '../model/index.ts';

export interface Visit {
  /** From 1, in the order of the file. */
  readonly number: number;
  /** Indexes of entries: the first, and the one after the last. */
  readonly from: number;
  readonly to: number;
  readonly opening?: SessionEntry;
}

export function visitsIn(entries: readonly LogEntry[]): Visit[] {
  const openings = entries.flatMap(({ entry }, index) => (entry.kind === 'session' ? [{ entry, index }] : []));
  const first = openings[0]?.index ?? entries.length;
  const unnamed = entries.slice(0, first).some(({ entry }) => WORK.has(entry.kind)) ? [{ from: 0, to: first }] : [];
  const named = openings.map(({ entry, index }, k) => ({ from: index, to: openings[k + 1]?.index ?? entries.length, opening: entry }));
  return [...unnamed, ...named].map((visit, k) => ({ number: k + 1, ...visit }));
}

const WORK: ReadonlySet<Kind | 'unread'> = new Set(['marks', 'adjust', 'care', 'power', 'event']);

/** The day on which an entry was written: its own, or the last one before it in its visit. */
export function dateAt(entries: readonly LogEntry[], { from }: Visit, index: number): string | undefined {
  for (let k = index; k >= from; k--) {
    const { date } = entries[k]!.entry;
    if (date !== undefined) return dayOf(date);
  }
  return undefined;
}
