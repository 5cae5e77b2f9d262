/** The figure of one station over its visits. */
import type { Log } from '../evaluation/index.ts';
import {
  dayOf,
  lookup,
  visitsIn,
  type LogEntry,
  type SessionHistory,
  type StationInSession,
  type StationMarks,
  type Units,
  type VisitMarks,
  type VisitPoint,
  type VisitsFigure,
} from '../model/index.ts';
import { driftsIn } from './drift.ts';
import { bandAhead, limitsIn, MOST_INTERVALS } from './forecast.ts';
import { stationVisitsIn } from './visited-stations.ts';
import { forecastInWords } from './session-words.ts';

/** @param history of the last visits of the same log */
export function visitsFigureOf(
  { sessions, forecasts }: SessionHistory,
  entries: readonly LogEntry[],
  log: Log,
  station: string,
  units: Units,
): VisitsFigure {
  const shot = sessions.flatMap((session) => {
    const own = session.stations.find(({ name, found }) => name === station && found !== undefined);
    return own ? [{ session, own }] : [];
  });
  const limits = lookup(limitsIn(entries)?.stations ?? {}, station);
  const forecast = forecasts.find((one) => one.station === station);
  const outlook = forecast && !('because' in forecast) ? forecast : undefined;
  return {
    kind: 'visits',
    station,
    units,
    limits: {
      ...(limits?.centre !== undefined && { centre: limits.centre }),
      ...(limits?.spread !== undefined && { spread: limits.spread }),
    },
    visits: shot.map(({ session: { number, title, date }, own }): VisitPoint => {
      const from = since(own);
      const index = from === undefined ? -1 : shot.findIndex(({ session }) => session.number === from);
      return {
        session: number,
        ...(title !== undefined && { title }),
        ...marksOf(own, date),
        ...(index >= 0 && { from: index }),
      };
    }),
    ahead: outlook ? bandAhead(historyOf(entries, log, station), entries, log, outlook) : [],
    ...(outlook && { confidence: outlook.confidence }),
    ...(outlook?.unsure && { unsure: outlook.unsure.on }),
    ...(forecast && { summary: forecastInWords(forecast, units) }),
  };
}

function since({ drift }: StationInSession): number | undefined {
  return drift && 'places' in drift ? drift.since : undefined;
}

function marksOf({ found, left }: StationInSession, date: string | undefined): Pick<VisitPoint, 'found' | 'left'> {
  return left ? { found: visitMarks(found!, date), left: visitMarks(left, date) } : { left: visitMarks(found!, date) };
}

function visitMarks({ date, centre, spread, missed }: StationMarks, session: string | undefined): VisitMarks {
  const day = date ?? (session === undefined ? undefined : dayOf(session));
  const amount = ({ value, u }: { readonly value: number; readonly u: number }) => ({ value, u });
  return {
    ...(day !== undefined && { date: day }),
    ...(centre && { centre: amount(centre) }),
    ...(spread && { spread: amount(spread) }),
    missed,
  };
}

function historyOf(entries: readonly LogEntry[], log: Log, name: string) {
  const visited = stationVisitsIn(entries, visitsIn(entries).slice(-MOST_INTERVALS - 1), log, [name]).get(name)!;
  return { name, visited, drifts: driftsIn(visited, entries) };
}
