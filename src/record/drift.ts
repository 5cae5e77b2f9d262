/** The drift since earlier visits, and the forecast. */
import { unitsAt, visitsFigure, type Book } from '../language/index.ts';
import type { SessionHistory } from '../model/index.ts';
import { driftInWords, forecastInWords } from '../history/index.ts';
import { table, type Block } from './blocks.ts';

export function driftBlocks(book: Book, history: SessionHistory): Block[] {
  const stations = history.sessions.at(-1)?.stations ?? [];
  const rows = stations.flatMap((station) => {
    const forecast = history.forecasts.find((one) => one.station === station.name);
    return station.drift
      ? [[station.name, driftInWords(station.drift, station), forecast ? forecastInWords(forecast, unitsAt(book)) : '']]
      : [];
  });
  const figures = stations
    .flatMap(({ name }) => visitsFigure(book, name, history) ?? [])
    .filter(({ visits }) => visits.length > 1);
  return [
    ...table(['station', 'drift', 'ahead'], rows),
    ...(figures.length === 0 ? [] : [{ kind: 'visits' as const, figures }]),
  ];
}
