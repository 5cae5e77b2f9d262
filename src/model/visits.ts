/**
 * Divides the log into visits. A visit begins with a `session` cell (work before the first one is a visit without a
 * name) and ends with its first `release`, else before the next session. The first work after a release begins a visit
 * without a name; other cells there belong to no visit.
 */
import { dayOf } from './calendar.ts';
import type { Entry, LogEntry, SessionEntry } from './entry.ts';
import { isWorkKind } from './kinds.ts';

/** One visit, as a range of entries. */
export interface Visit {
  /** From 1, in the order of the file. */
  readonly number: number;
  /** Indexes of entries: the first, and the one after the last. */
  readonly from: number;
  readonly to: number;
  readonly opening?: SessionEntry;
  /** By its release, or because another visit follows. */
  readonly isEnded: boolean;
}

/** `none`: no visit yet; `open`: a visit is open; `released`: the last one ended with a release. */
export type VisitPhase = 'none' | 'open' | 'released';

/** Whether a cell measures or moves something. */
export function isWork({ kind }: Entry): boolean {
  return kind !== 'unread' && isWorkKind(kind);
}

/** Whether a visit begins with this entry. */
export function opensVisit(entry: Entry, phase: VisitPhase): boolean {
  return entry.kind === 'session' || (phase !== 'open' && isWork(entry));
}

/** The phase after this entry. */
export function nextPhase(entry: Entry, phase: VisitPhase): VisitPhase {
  if (opensVisit(entry, phase)) return 'open';
  return entry.kind === 'release' ? 'released' : phase;
}

/** The visits of a log, in order; empty without work and sessions. */
export function visitsIn(entries: readonly LogEntry[]): Visit[] {
  const visits: Visit[] = [];
  let phase: VisitPhase = 'none';
  const end = (to: number) => {
    visits.push({ ...visits.pop()!, to, isEnded: true });
  };
  entries.forEach(({ entry }, index) => {
    const isOpen = phase === 'open';
    if (opensVisit(entry, phase)) {
      if (isOpen) end(index);
      // Cells above the first work belong to it: the machine, the limits, the checks.
      const from = entry.kind === 'session' || phase === 'released' ? index : 0;
      visits.push({
        number: visits.length + 1,
        from,
        to: entries.length,
        ...(entry.kind === 'session' && { opening: entry }),
        isEnded: false,
      });
    } else if (isOpen && entry.kind === 'release') end(index + 1);
    phase = nextPhase(entry, phase);
  });
  return visits;
}

/**
 * Entries that are judged together, with the log up to the last of them: indexes of the first, and of the one after the
 * last.
 */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Every visit, the first with the cells above it; every release that ends none; without a visit the whole log. */
export function judgedIn(entries: readonly LogEntry[], visits = visitsIn(entries)): Stretch[] {
  if (visits.length === 0) return [{ from: 0, to: entries.length }];
  const isInVisit = (index: number) => visits.some(({ from, to }) => from <= index && index < to);
  const others = entries.flatMap(({ entry }, index) =>
    entry.kind === 'release' && !isInVisit(index) ? [{ from: index, to: index + 1 }] : [],
  );
  return [...visits.map(({ number, from, to }) => ({ from: number === 1 ? 0 : from, to })), ...others].toSorted(
    (one, other) => one.to - other.to,
  );
}

/**
 * Index of the first entry that has no effect on how the one at `index` is judged: the end of its visit; for an entry
 * after a release that belongs to no visit, the next one. Cells above the first visit are part of it.
 *
 * @param count of entries: without a visit, all of them
 */
export function judgedUntil(visits: readonly Visit[], index: number, count: number): number {
  if (visits.length === 0) return count;
  const around = visits.find(({ to }) => index < to);
  return around && (index >= around.from || around.number === 1) ? around.to : index + 1;
}

/** The day on which an entry was written: its own date, or the last one before it in its visit. */
export function dateAt(entries: readonly LogEntry[], { from }: Pick<Visit, 'from'>, index: number): string | undefined {
  for (let k = index; k >= from; k--) {
    const { date } = entries[k]!.entry;
    if (date !== undefined) return dayOf(date);
  }
  return undefined;
}
