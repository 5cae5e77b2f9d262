/** One station over the visits of the log, and where that leads. */
import type { SessionRecord, VisitsFigure } from '../../model/index.ts';
import { recentRecord, visitsFigureOf } from '../../record/index.ts';
import type { Book } from '../book-type.ts';

/**
 * Undefined where there is no machine, or no such station on its path.
 *
 * @param record of the same log's last visits, where it is there already
 */
export function visitsFigure(
  { log, workbook: { entries } }: Book,
  station: string,
  record?: SessionRecord,
): VisitsFigure | undefined {
  const report = log.report(station, entries.length);
  if (!report) return undefined;
  return visitsFigureOf(record ?? recentRecord(entries, log, [station]), entries, log, station, report.frame.units);
}
