/** The rounds of a station, in this session and those before. */
import type { SessionRound } from '../../evaluation/index.ts';
import { visitsIn, type LogEntry, type RoundPoint, type RoundsFigure } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { offCentre } from '../book/off-centre.ts';

/** More do not fit side by side in a panel. */
const MOST_ROUNDS = 12;
/** Sessions that are searched for rounds; a station may not be shot in each. */
const MOST_SESSIONS = 24;

/** Undefined without a machine, or if the station is not on its path. */
export function roundsFigure(book: Book, station: string): RoundsFigure | undefined {
  const { entries } = book.workbook;
  const report = book.log.report(station, entries.length);
  if (!report) return undefined;
  const sessions: { readonly of: Session; readonly rounds: readonly Omit<RoundPoint, 'session'>[] }[] = [];
  let room = MOST_ROUNDS;
  for (const of of sessionsIn(entries).slice(-MOST_SESSIONS).reverse()) {
    if (room === 0) break;
    const rounds = book.log.rounds(station, of.end).slice(-room).map(pointOf);
    if (rounds.length > 0) sessions.unshift({ of, rounds });
    room -= rounds.length;
  }
  return {
    kind: 'rounds',
    station,
    units: report.frame.units,
    limits: Object.fromEntries(
      report.requirements.flatMap(({ limit, max }) => (limit === 'plumb' ? [] : [[limit, max]])),
    ),
    sessions: sessions.map(({ of: { title, date } }) => ({ title, ...(date !== undefined && { date }) })),
    rounds: sessions.flatMap(({ rounds }, session) => rounds.map((round) => ({ session, ...round }))),
  };
}

interface Session {
  readonly title: string;
  readonly date?: string | undefined;
  /** Number of entries up to its end. */
  readonly end: number;
}

function sessionsIn(entries: readonly LogEntry[]): Session[] {
  return visitsIn(entries).map(({ opening, to }) => ({
    title: opening?.title ?? '',
    date: opening?.date?.slice(0, 10),
    end: to,
  }));
}

function pointOf({ report, number: round }: SessionRound): Omit<RoundPoint, 'session'> {
  const { cell, path } = report.readings.find(({ height }) => height === 0) ?? report.readings[0]!;
  return { round, state: report.state, ...offCentre(report), cell, path };
}
