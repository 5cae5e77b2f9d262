/** What drifted since the visits before, and where that leads. */
import type { SessionRecord } from '../model/index.ts';
import { driftInWords, forecastInWords } from '../record/index.ts';
import { table, type Block } from './blocks.ts';

export function driftTable({ sessions, forecasts }: SessionRecord): Block[] {
  const rows = sessions.at(-1)?.stations.flatMap((station) => {
    const forecast = forecasts.find((one) => one.station === station.name);
    return station.drift ? [[station.name, driftInWords(station.drift, station), forecast ? forecastInWords(forecast) : '']] : [];
  }) ?? [];
  return table(['station', 'drift', 'ahead'], rows);
}
