/** One station, visit by visit: its marks as found and as left, with their days, and what moved it meanwhile. */
import { isMark, points, type Log, type Mark, type VisitedRound } from '../alignment/index.ts';
import { dateAt, type LogEntry, type Reading, type Visit } from '../model/index.ts';

export type SeenMark = Mark<Reading>;

export interface SeenRound extends VisitedRound {
  readonly date?: string;
  /** By where the carriages stand; repeated readings of one place are one mark. The same mark is the same object. */
  readonly marks: ReadonlyMap<string, SeenMark>;
}

export interface Seen {
  readonly visit: Visit;
  readonly found?: SeenRound;
  /** The very same where the station has but one round in the visit. */
  readonly left?: SeenRound;
  /** Indexes of entries, as in `StationVisit`. */
  readonly movedBefore?: number;
  readonly movedAfter?: number;
}

export function seenIn(entries: readonly LogEntry[], visits: readonly Visit[], log: Log, station: string): Seen[] {
  return visits.map((visit, k) => {
    const { found, left, ...moved } = log.visit(station, { ...visit, until: visits[k + 1]?.from ?? entries.length });
    const first = found && seenRound(found, entries, visit);
    const last = left && (left.index === found?.index ? first : seenRound(left, entries, visit));
    return { visit, ...(first && { found: first }), ...(last && { left: last }), ...moved };
  });
}

function seenRound(round: VisitedRound, entries: readonly LogEntry[], visit: Visit): SeenRound {
  const date = dateAt(entries, visit, round.index);
  const marks = points(round.report.readings).filter(isMark).map((mark): [string, SeenMark] => [JSON.stringify(mark.carriages), mark]);
  return { ...round, marks: new Map(marks), ...(date !== undefined && { date }) };
}
