/** The marks of stations by visit: as found and as left, with their days, and what moved them in between. */
import { isMark, points, type Mark } from '../machine/index.ts';
import type { Log, StationVisit, VisitedRound } from '../evaluation/index.ts';
import { dateAt, type LogEntry, type Visit } from '../model/index.ts';

export type VisitMark = Mark;

export interface DatedRound extends VisitedRound {
  readonly date?: string;
  /**
   * By the place of the carriages; repeated readings at one place are one mark. The object's identity is that of the
   * mark.
   */
  readonly marks: ReadonlyMap<string, VisitMark>;
}

export interface VisitedStation {
  readonly visit: Visit;
  readonly found?: DatedRound;
  /** The same object if the station has only one round in the visit. */
  readonly left?: DatedRound;
  /** Indexes of entries, as in `StationVisit`. */
  readonly movedBefore?: number;
  readonly movedAfter?: number;
}

/** By station. The loop is by visit, so that one estimate serves all stations. */
export function stationVisitsIn(
  entries: readonly LogEntry[],
  visits: readonly Visit[],
  log: Log,
  stations: readonly string[],
): ReadonlyMap<string, readonly VisitedStation[]> {
  const byVisit = visits.map((visit, k) => {
    const span = { ...visit, until: visits[k + 1]?.from ?? entries.length };
    return stations.map((station) => visitMarksOf(entries, visit, log.visit(station, span)));
  });
  return new Map(stations.map((station, n) => [station, byVisit.map((all) => all[n]!)]));
}

function visitMarksOf(
  entries: readonly LogEntry[],
  visit: Visit,
  { found, left, ...moved }: StationVisit,
): VisitedStation {
  const first = found && datedRound(found, entries, visit);
  const last = left && (left.index === found?.index ? first : datedRound(left, entries, visit));
  return { visit, ...(first && { found: first }), ...(last && { left: last }), ...moved };
}

function datedRound(round: VisitedRound, entries: readonly LogEntry[], visit: Visit): DatedRound {
  const date = dateAt(entries, visit, round.index);
  const marks = points(round.report.readings)
    .filter(isMark)
    .map((mark): [string, VisitMark] => [JSON.stringify(mark.carriages), mark]);
  return { ...round, marks: new Map(marks), ...(date !== undefined && { date }) };
}
