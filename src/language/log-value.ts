/** What the log says of a station, by the name that arithmetic has for it. */
import type { Log } from '../alignment/index.ts';
import type { Amount, StationReport } from '../model/index.ts';
import { LOG_NAMES, type Known } from '../workbook/index.ts';
import { offMiddle, required } from './off-middle.ts';

/** As it stood after so many entries: the value, or why it is not known yet; nothing where it is no such name. */
export function logValue(log: Log, count: number, name: string): Known | { readonly why: string } | undefined {
  const dot = name.indexOf('.');
  const [station, what] = [name.slice(0, dot), name.slice(dot + 1)];
  if (dot < 1 || !Object.hasOwn(LOG_NAMES, what)) return undefined;
  const report = log.report(station, count);
  if (!report) return undefined;
  if (report.state === 'unread') return { why: `${station} has not been shot` };
  const amount = amountOf(report, what);
  return amount ? { ...amount, dimension: LOG_NAMES[what]!.dimension } : { why: `the marks on ${station} do not tell` };
}

function amountOf(report: StationReport, what: string): Amount | undefined {
  const { slope } = report;
  switch (what) {
    case 'slope.right': return slope && { value: slope.right, u: slope.u.right };
    case 'slope.up': return slope && { value: slope.up, u: slope.u.up };
    case 'centre': return offMiddle(report).centre;
    case 'spread': return offMiddle(report).spread;
    default: return required(report, 'plumb');
  }
}
