/** One visit of a workbook, by station. */
import type { Book } from '../language/index.ts';
import { targetFigure } from '../language/index.ts';
import {
  visitsIn,
  type Entry,
  type Evaluation,
  type Limits,
  type LogEntry,
  type Machine,
  type ReleaseEntry,
  type SessionEntry,
  type StationReport,
  type TargetFigure,
} from '../model/index.ts';

export interface Visit {
  readonly evaluation: Evaluation;
  readonly machine?: Machine;
  readonly limits?: Limits;
  readonly session?: SessionEntry;
  readonly release?: ReleaseEntry;
  /** The entries of this visit, with their index in the log. */
  readonly entries: readonly (LogEntry & { readonly index: number })[];
  readonly stations: readonly StationVisit[];
}

export interface StationVisit {
  readonly name: string;
  /** At the end of the visit; its state shows whether the readings are stale. */
  readonly now: StationReport;
  /** After the first and the last round of marks in this visit; the same if there was one. */
  readonly found?: StationReport;
  readonly left?: StationReport;
  readonly figures: { readonly found?: TargetFigure; readonly left?: TargetFigure };
}

/**
 * The workbook up to the end of a visit, which determines its record: later cells do not change it. A book without
 * visits is returned unchanged.
 *
 * @param number from 1, as `sessions` counts them; absent: the last.
 * @returns undefined if there is no such visit
 */
export function bookOfVisit(book: Book, number?: number): Book | undefined {
  const { entries } = book.workbook;
  const visits = visitsIn(entries);
  const visit = number === undefined ? visits.at(-1) : visits[number - 1];
  if (!visit) return number === undefined ? book : undefined;
  const next = entries[visit.to];
  return next ? book.upTo(next.cell) : book;
}

/** The last visit of a book that ends with it; the whole book if it has none. */
export function visitIn(book: Book): Visit {
  const { entries } = book.workbook;
  const { from = 0, opening: session } = visitsIn(entries).at(-1) ?? {};
  const own = entries.map((logged, index) => ({ ...logged, index })).slice(from);
  const machine = last(entries, 'machine')?.machine;
  const limits = last(entries, 'limits')?.limits;
  const release = last(own, 'release');
  const evaluation = book.log.judged();
  return {
    evaluation,
    entries: own,
    stations: evaluation.stations.map((now) => stationVisit(book, now, { from, ...(session && { opening: session }) })),
    ...(session && { session }),
    ...(machine && { machine }),
    ...(limits && { limits }),
    ...(release && { release }),
  };
}

function stationVisit(
  book: Book,
  now: StationReport,
  visit: { readonly from: number; readonly opening?: SessionEntry },
): StationVisit {
  const count = book.workbook.entries.length;
  const { found, left } = book.log.visit(now.name, { ...visit, to: count, until: count });
  if (!found || !left) return { name: now.name, now, figures: {} };
  const last = targetFigure(book, now.name, { count, report: now, expected: [] })!;
  const first = {
    ...targetFigure(book, now.name, { count: found.index + 1, report: found.report, expected: [] })!,
    rounds: last.rounds,
  };
  return { name: now.name, now, found: found.report, left: left.report, figures: { found: first, left: last } };
}

function last<K extends Entry['kind']>(entries: readonly LogEntry[], kind: K): Extract<Entry, { kind: K }> | undefined {
  return entries.findLast(({ entry }) => entry.kind === kind)?.entry as Extract<Entry, { kind: K }> | undefined;
}
