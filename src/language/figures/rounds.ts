/** How a station's rounds went, in this session and those before. */
import { placeInCell } from '../../alignment/index.ts';
import type { Amount, LogEntry, Reading, Requirement, RoundPoint, RoundsFigure, StationReport } from '../../model/index.ts';
import type { Book } from '../book.ts';

/** More do not stand side by side on paper as narrow as a panel. */
const MOST_ROUNDS = 12;
/** Looked through for rounds; a station may rest for a while. */
const MOST_SESSIONS = 24;

/** Undefined where there is no machine, or no such station on its path. */
export function roundsFigure(book: Book, station: string): RoundsFigure | undefined {
  const { entries } = book.workbook;
  const report = book.log.report(station, entries.length);
  if (!report) return undefined;
  const sessions: { readonly of: Session; readonly rounds: readonly Omit<RoundPoint, 'session'>[] }[] = [];
  let room = MOST_ROUNDS;
  for (const of of sessionsIn(entries).slice(-MOST_SESSIONS).reverse()) {
    if (room === 0) break;
    const rounds = book.log.rounds(station, of.end).map(({ report: then }, k) => pointOf(then, k + 1)).slice(-room);
    if (rounds.length > 0) sessions.unshift({ of, rounds });
    room -= rounds.length;
  }
  return {
    kind: 'rounds',
    station,
    limits: Object.fromEntries(report.requirements.flatMap(({ limit, max }) => (limit === 'plumb' ? [] : [[limit, max]]))),
    sessions: sessions.map(({ of: { title, date } }) => ({ title, ...(date !== undefined && { date }) })),
    rounds: sessions.flatMap(({ rounds }, session) => rounds.map((round) => ({ session, ...round }))),
  };
}

interface Session {
  readonly title: string;
  readonly date?: string | undefined;
  /** How many entries there are to its end. */
  readonly end: number;
}

/** What stands before the first session counts as one without a name. */
function sessionsIn(entries: readonly LogEntry[]): Session[] {
  const starts = entries.flatMap(({ entry }, index) => (entry.kind === 'session' ? [{ index, title: entry.title, date: entry.date?.slice(0, 10) }] : []));
  return [{ title: '', date: undefined }, ...starts].map(({ title, date }, k) => ({ title, date, end: starts[k]?.index ?? entries.length }));
}

function pointOf(report: StationReport, round: number): Omit<RoundPoint, 'session'> {
  const own = report.readings.filter(({ height }) => height === 0);
  const marks = own.flatMap(({ at, with: others, right, up, u, none }) => (right === undefined || up === undefined || none ? [] : [{ place: placeInCell(at, others), right, up, u }]));
  const { cell, path } = own[0] ?? report.readings[0]!;
  const missed = own.filter(({ none }: Reading) => none).length;
  const shown = { round, state: report.state, missed, cell, path };
  // Nobody knows how far off the beam was that missed: what the others show would look better than it is.
  if (missed > 0) return shown;
  const centre = asked(report, 'centre') ?? most(marks.map(({ right, up, u }) => ({ value: Math.hypot(right, up), u })));
  const spread = asked(report, 'spread') ?? most(marks.flatMap((one, k) => marks.slice(0, k).filter(({ place }) => place !== one.place).map((other) => ({ value: Math.hypot(one.right - other.right, one.up - other.up), u: Math.hypot(one.u, other.u) }))));
  return { ...shown, ...(centre && { centre }), ...(spread && { spread }) };
}

/** As it is told of the station wherever its limits are about it. */
function asked({ requirements }: StationReport, limit: Requirement['limit']): Amount | undefined {
  const { value, u } = requirements.find((one) => one.limit === limit) ?? {};
  return value === undefined || u === undefined ? undefined : { value, u };
}

function most(amounts: readonly Amount[]): Amount | undefined {
  return amounts.reduce<Amount | undefined>((largest, one) => (largest && largest.value >= one.value ? largest : one), undefined);
}
