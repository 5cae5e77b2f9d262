/** Stations, visit by visit: their marks as found and as left, with their days, and what moved them meanwhile. */
import { isMark, points, type Mark } from '../machine/index.ts';
import type { Log, StationVisit, VisitedRound } from '../evaluation/index.ts';
import { dateAt, type LogEntry, type Visit } from '../model/index.ts';

export type SeenMark = Mark;

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

/** By station. Visit by visit, so that what is estimated of a visit serves all stations. */
export function seenIn(
  entries: readonly LogEntry[],
  visits: readonly Visit[],
  log: Log,
  stations: readonly string[],
): ReadonlyMap<string, readonly Seen[]> {
  const byVisit = visits.map((visit, k) => {
    const span = { ...visit, until: visits[k + 1]?.from ?? entries.length };
    return stations.map((station) => seenInVisit(entries, visit, log.visit(station, span)));
  });
  return new Map(stations.map((station, n) => [station, byVisit.map((all) => all[n]!)]));
}

function seenInVisit(entries: readonly LogEntry[], visit: Visit, { found, left, ...moved }: StationVisit): Seen {
  const first = found && seenRound(found, entries, visit);
  const last = left && (left.index === found?.index ? first : seenRound(left, entries, visit));
  return { visit, ...(first && { found: first }), ...(last && { left: last }), ...moved };
}

function seenRound(round: VisitedRound, entries: readonly LogEntry[], visit: Visit): SeenRound {
  const date = dateAt(entries, visit, round.index);
  const marks = points(round.report.readings)
    .filter(isMark)
    .map((mark): [string, SeenMark] => [JSON.stringify(mark.carriages), mark]);
  return { ...round, marks: new Map(marks), ...(date !== undefined && { date }) };
}
