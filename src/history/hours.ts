/**
 * Hours of work, from the machine's own counter. A cell without `hours` has those of the last cell above it in its
 * visit. Where the counter was changed, the hours go on adding up.
 */
import { dateAt, daysBetween, addDays, type LogEntry, type Visit } from '../model/index.ts';

/** The counter through the log, h. */
export interface Hours {
  /** Hours of work at the entry with this index, counted through changed counters; undefined if they are not known. */
  at(visit: Visit, index: number): number | undefined;
  /** The last reading of the log: hours counted through, and what the counter shows. */
  readonly latest?: { readonly worked: number; readonly shown: number; readonly date?: string };
  /** Hours a day over the last year of dated readings; absent if fewer than two days have one. */
  readonly perDay?: number;
}

interface Read {
  readonly index: number;
  readonly worked: number;
  readonly shown: number;
  readonly date?: string;
}

export function hoursIn(entries: readonly LogEntry[], visits: readonly Visit[]): Hours {
  const reads = readsIn(entries, visits);
  const latest = reads.at(-1);
  const perDay = rateOf(reads);
  return {
    at: (visit, index) => reads.findLast((read) => read.index <= index && read.index >= visit.from)?.worked,
    ...(latest && { latest }),
    ...(perDay !== undefined && { perDay }),
  };
}

function readsIn(entries: readonly LogEntry[], visits: readonly Visit[]): Read[] {
  const reads: Read[] = [];
  entries.forEach(({ entry: { hours, date: own } }, index) => {
    if (!hours) return;
    const last = reads.at(-1);
    const visit = visits.find(({ from, to }) => from <= index && index < to);
    const date = visit ? dateAt(entries, visit, index) : own?.slice(0, 10);
    const worked = !last ? hours.hours : last.worked + (hours.isNew ? 0 : hours.hours - last.shown);
    reads.push({ index, worked, shown: hours.hours, ...(date !== undefined && { date }) });
  });
  return reads;
}

/** Days: what was worked long ago says little about now. */
const YEAR = 365;

function rateOf(reads: readonly Read[]): number | undefined {
  const dated = reads.flatMap(({ date, worked }) => (date === undefined ? [] : [{ date, worked }]));
  const last = dated.at(-1);
  const first = last && dated.find(({ date }) => daysBetween(date, last.date) <= YEAR);
  const days = first ? daysBetween(first.date, last.date) : 0;
  const rate = days > 0 ? (last!.worked - first!.worked) / days : 0;
  return rate > 0 ? rate : undefined;
}

/** The day on which that number of further hours will have been worked; undefined if the log does not show how fast. */
export function dayAfter(left: number, { latest, perDay }: Hours): string | undefined {
  if (latest?.date === undefined || perDay === undefined) return undefined;
  return addDays(latest.date, Math.floor(left / perDay));
}
