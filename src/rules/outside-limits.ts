/** Back in service while a station was shot completely and is not within its limits. */
import { findingAt, pathTo, type Finding } from '../model/index.ts';
import { listed } from '../words/index.ts';
import { isReturn, type Outcome } from './rule.ts';

/** A visit ends with its release. */
export function outsideLimits(outcome: Outcome): Finding[] {
  const last = outcome.visit.at(-1);
  if (!last || !isReturn(last)) return [];
  const open = outcome.verdicts.filter(
    ({ demand, report }) => demand && (report.state === 'outside' || report.state === 'borderline'),
  );
  if (open.length === 0) return [];
  return [
    findingAt(last, pathTo('release'), 'release.outside', { stations: listed(open.map(({ report }) => report.name)) }),
  ];
}
