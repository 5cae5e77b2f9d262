/** The visits of a log: each station as found and as left, the drift in between, and the forecast. */
import type { Log } from '../evaluation/index.ts';
import {
  visitsIn,
  type Drift,
  type LogEntry,
  type MachineEntry,
  type NoDrift,
  type SessionHistory,
  type SessionReport,
  type StationInSession,
  type Visit,
} from '../model/index.ts';
import { driftsIn, movedBy } from './drift.ts';
import { forecastOf, MOST_INTERVALS } from './forecast.ts';
import { stationVisitsIn, type VisitedStation } from './visited-stations.ts';
import { stationMarks } from './station-marks.ts';

/** The last visits, as many as a forecast uses. @param only the stations to include; absent: all */
export function recentHistory(entries: readonly LogEntry[], log: Log, only?: readonly string[]): SessionHistory {
  return historyOf(
    visitsIn(entries).slice(-MOST_INTERVALS - 1),
    entries,
    log,
    (name) => only === undefined || only.includes(name),
  );
}

/** @param log of the same entries, folded or not */
export function sessionHistory(entries: readonly LogEntry[], log: Log): SessionHistory {
  return historyOf(visitsIn(entries), entries, log, () => true);
}

function historyOf(
  visits: readonly Visit[],
  entries: readonly LogEntry[],
  log: Log,
  isRequested: (name: string) => boolean,
): SessionHistory {
  const names = [...new Set(visits.flatMap((visit) => stationNames(entries, visit)))].filter(isRequested);
  const byStation = new Map(
    [...stationVisitsIn(entries, visits, log, names)].map(([name, visited]) => [
      name,
      { visited, drifts: driftsIn(visited, entries) },
    ]),
  );
  const sessions = visits.map((visit, k): SessionReport => {
    const here = new Set(stationNames(entries, visit));
    const stations = names
      .filter((name) => here.has(name))
      .map((name) => {
        const { visited, drifts } = byStation.get(name)!;
        return inSession(name, visited[k]!, drifts[k], entries);
      });
    return { ...head(entries, visit), stations };
  });
  const present = visits.length > 0 ? namesAt(entries, entries.length).filter(isRequested) : [];
  return {
    sessions,
    forecasts: present.flatMap((name) => forecastOf({ name, ...byStation.get(name)! }, entries, log) ?? []),
  };
}

function head(entries: readonly LogEntry[], { number, opening, from, to }: Visit): Omit<SessionReport, 'stations'> {
  const date = opening?.date ?? entries.slice(from, to).find(({ entry }) => entry.date !== undefined)?.entry.date;
  return {
    number,
    ...(opening && { title: opening.title, cell: entries[from]!.cell }),
    ...(date !== undefined && { date: date.trim() }),
    ...(opening?.by !== undefined && { by: opening.by }),
    ...(opening?.reason !== undefined && { reason: opening.reason }),
  };
}

/** The stations of every machine that was in force during the visit. */
function stationNames(entries: readonly LogEntry[], { from, to }: Visit): string[] {
  const described = entries.slice(from, to).flatMap(({ entry }) => (entry.kind === 'machine' ? namesOf(entry) : []));
  return [...new Set([...namesAt(entries, from), ...described])];
}

/** The stations of the machine in force before the entry `count`. */
function namesAt(entries: readonly LogEntry[], count: number): string[] {
  const described = entries.slice(0, count).findLast(({ entry }) => entry.kind === 'machine')?.entry;
  return described?.kind === 'machine' ? namesOf(described) : [];
}

function namesOf({ machine }: MachineEntry): string[] {
  return machine.path.map(({ name }) => name);
}

function inSession(
  name: string,
  { found, left, movedBefore }: VisitedStation,
  drift: Drift | NoDrift | undefined,
  entries: readonly LogEntry[],
): StationInSession {
  if (!found || !left) return { name };
  return {
    name,
    frame: left.report.frame,
    carriages: left.report.carriages,
    found: stationMarks(found, entries),
    ...(left !== found && { left: stationMarks(left, entries) }),
    ...(movedBefore !== undefined && { after: movedBy(entries[movedBefore]!) }),
    ...(drift && { drift }),
  };
}
