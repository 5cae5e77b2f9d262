/** The drift of one station since the previous visit, and its forecast. */
import { driftInWords, forecastInWords, recentHistory } from '../../history/index.ts';
import { visitsIn } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { unitsAt } from '../book/units-of.ts';

/** Drift needs two visits. */
export function hasVisits({ workbook: { entries } }: Book): boolean {
  return visitsIn(entries).length > 1;
}

export function driftHere(book: Book, name: string): string[] {
  const { entries } = book.workbook;
  const { sessions, forecasts } = recentHistory(entries, book.log, [name]);
  const station = sessions.at(-1)?.stations.find((one) => one.name === name);
  const forecast = forecasts.find((one) => one.station === name);
  return station?.drift
    ? [driftInWords(station.drift, station), ...(forecast ? [forecastInWords(forecast, unitsAt(book))] : [])]
    : ['No comparison: it was not shot both in this visit and in an earlier one.'];
}
