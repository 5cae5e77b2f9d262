/** The text of `sessions`: for each visit the stations as found and as left, the drift since, then the forecast. */
import {
  harmless,
  type SessionHistory,
  type SessionReport,
  type StationInSession,
  type Units,
} from '../model/index.ts';
import { driftInWords, forecastInWords, marksInWords, sessionInWords } from '../history/index.ts';
import type { Paint } from './paint.ts';
import { broken, labelled, wrapped } from './wrap.ts';

const LABEL = 10;

export function sessionsText(
  file: string,
  { sessions, forecasts }: SessionHistory,
  units: Units,
  paint: Paint,
): string {
  const ahead = forecasts.flatMap((forecast) => row(forecast.station, [forecastInWords(forecast, units)]));
  const blocks = [
    ...sessions.map((session) => sessionLines(session, paint)),
    ...(ahead.length > 0 ? [[paint('bold', 'FORECAST'), ...ahead]] : []),
    ...(sessions.length === 0 ? [['This log has no session.']] : []),
  ];
  return [
    ...broken(harmless(file)).map((line) => paint('bold', line)),
    ...blocks.flatMap((block) => ['', ...block]),
    '',
  ].join('\n');
}

function sessionLines(session: SessionReport, paint: Paint): string[] {
  const shot = session.stations.filter(({ found }) => found);
  return [
    ...wrapped(harmless(sessionInWords(session)).replace(/^s/, 'S')).map((line) => paint('bold', line)),
    ...shot.flatMap((station) => row(station.name, linesOf(station))),
    ...(shot.length === 0 ? ['  No marks.'] : []),
  ];
}

function linesOf(station: StationInSession): string[] {
  const { found, left, after, drift } = station;
  const first = `${left ? 'as found' : 'as found and left'}${after ? `, after ${after.what}` : ''}`;
  return [
    `${first}: ${marksInWords(found!, station)}`,
    ...(left ? [`as left: ${marksInWords(left, station)}`] : []),
    ...(drift ? [`drift ${driftInWords(drift, station)}`] : []),
  ];
}

/** A name with lines of text beside it. */
function row(name: string, texts: readonly string[]): string[] {
  const isShort = name.length < LABEL - 2;
  return [
    ...(isShort ? [] : broken(`  ${name}`)),
    ...texts.flatMap((text, k) => labelled(isShort && k === 0 ? `  ${name}` : '', harmless(text), LABEL)),
  ];
}
