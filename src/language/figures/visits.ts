/** One station over the visits of the log, and its forecast. */
import type { SessionHistory, VisitsFigure } from '../../model/index.ts';
import { recentHistory, visitsFigureOf } from '../../history/index.ts';
import type { Book } from '../book/book-type.ts';

/**
 * Undefined without a machine, or if the station is not on its path.
 *
 * @param history of the same log's last visits, if it is computed already
 */
export function visitsFigure(
  { log, workbook: { entries } }: Book,
  station: string,
  history?: SessionHistory,
): VisitsFigure | undefined {
  const report = log.report(station, entries.length);
  if (!report) return undefined;
  return visitsFigureOf(history ?? recentHistory(entries, log, [station]), entries, log, station, report.frame.units);
}
