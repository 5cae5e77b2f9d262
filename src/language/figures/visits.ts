/** One station over the visits of the log, and where that leads. */
import type { SessionHistory, VisitsFigure } from '../../model/index.ts';
import { recentHistory, visitsFigureOf } from '../../history/index.ts';
import type { Book } from '../book/book-type.ts';

/**
 * Undefined where there is no machine, or no such station on its path.
 *
 * @param history of the same log's last visits, where it is there already
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
