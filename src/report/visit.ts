/** The last session of a workbook, station by station. */
import type { Book } from '../language/index.ts';
import { targetFigure } from '../language/index.ts';
import type { Entry, Evaluation, Limits, LogEntry, Machine, ReleaseEntry, SessionEntry, StationReport, TargetFigure } from '../model/index.ts';

export interface Visit {
  readonly evaluation: Evaluation;
  readonly machine?: Machine;
  readonly limits?: Limits;
  readonly session?: SessionEntry;
  readonly release?: ReleaseEntry;
  /** Of this session, with their place in the log. */
  readonly entries: readonly (LogEntry & { readonly index: number })[];
  readonly stations: readonly StationVisit[];
}

export interface StationVisit {
  readonly name: string;
  /** As it stands at the end; its state says whether that still holds. */
  readonly now: StationReport;
  /** After the first and the last round of marks in this session; the same where there was one. */
  readonly found?: StationReport;
  readonly left?: StationReport;
  readonly figures: { readonly found?: TargetFigure; readonly left?: TargetFigure };
}

export function visitIn(book: Book): Visit {
  const { entries } = book.workbook;
  const from = entries.findLastIndex(({ entry }) => entry.kind === 'session');
  const own = entries.map((logged, index) => ({ ...logged, index })).slice(Math.max(0, from));
  const session = from < 0 ? undefined : (entries[from]!.entry as SessionEntry);
  const machine = last(entries, 'machine')?.machine;
  const limits = last(entries, 'limits')?.limits;
  const release = last(own, 'release');
  const evaluation = book.evaluation();
  return {
    evaluation, entries: own,
    stations: evaluation.stations.map((now) => stationVisit(book, now, Math.max(0, from))),
    ...(session && { session }), ...(machine && { machine }), ...(limits && { limits }), ...(release && { release }),
  };
}

/** @param from index of the visit's first entry */
function stationVisit(book: Book, now: StationReport, from: number): StationVisit {
  const { found, left } = book.log.visit(now.name, { from, to: book.workbook.entries.length });
  if (!found || !left) return { name: now.name, now, figures: {} };
  const last = targetFigure(book, now.name, { expected: [] })!;
  const first = { ...targetFigure(book, now.name, { count: found.index + 1, expected: [] })!, rounds: last.rounds };
  return { name: now.name, now, found: found.report, left: left.report, figures: { found: first, left: last } };
}

function last<K extends Entry['kind']>(entries: readonly LogEntry[], kind: K): Extract<Entry, { kind: K }> | undefined {
  return entries.findLast(({ entry }) => entry.kind === kind)?.entry as Extract<Entry, { kind: K }> | undefined;
}
