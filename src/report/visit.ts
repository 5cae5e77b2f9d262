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
    stations: evaluation.stations.map((now) => stationVisit(book, now)),
    ...(session && { session }), ...(machine && { machine }), ...(limits && { limits }), ...(release && { release }),
  };
}

function stationVisit(book: Book, now: StationReport): StationVisit {
  const rounds = book.log.rounds(now.name, book.workbook.entries.length);
  const [found, left] = [rounds[0]?.report, rounds.at(-1)?.report];
  const drawn = (round: number) => targetFigure(book, now.name, { round, expected: [] });
  return {
    name: now.name, now,
    ...(found && { found }), ...(left && { left }),
    figures: rounds.length === 0 ? {} : { found: drawn(1)!, left: drawn(rounds.length)! },
  };
}

function last<K extends Entry['kind']>(entries: readonly LogEntry[], kind: K): Extract<Entry, { kind: K }> | undefined {
  return entries.findLast(({ entry }) => entry.kind === kind)?.entry as Extract<Entry, { kind: K }> | undefined;
}
