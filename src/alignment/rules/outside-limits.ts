/** Back in service while a station is shot in full and is not within its limits. */
import type { Finding } from '../../model/index.ts';
import { listed } from '../words.ts';
import { at, isReturn, type Outcome } from './rule.ts';

/** Of a release that still stands: what moved since, or was shot since, is another visit's work. */
export function outsideLimits({ state, standings, entries }: Outcome): Finding[] {
  if (state.released !== 'in service') return [];
  const last = entries.findLast((logged) => isReturn(logged) || logged.entry.kind === 'marks' || logged.entry.kind === 'limits');
  const open = standings.filter(({ asked, report }) => asked && (report.state === 'outside' || report.state === 'borderline'));
  if (!last || !isReturn(last) || open.length === 0) return [];
  return [at(last, 'release', 'release.outside', { stations: listed(open.map(({ report }) => report.name)) })];
}
