/**
 * At a station that two carriages move: mark = a + b·own + c·other + e·own·other per axis. The product term is what a
 * changing yaw or pitch of the other carriage makes; angles of mirrors make none.
 */
import { fromRows, leastSquares } from '../../statistics/index.ts';
import type { Finding } from '../../model/index.ts';
import { SURE } from '../account.ts';
import { isMark, points, type Mark } from '../points.ts';
import type { Standing } from '../report.ts';
import type { Station, Travel } from '../system.ts';
import { lastEntry } from './last-entry.ts';
import { at, type Outcome } from './rule.ts';

export function racking({ standings, entries }: Outcome): Finding[] {
  return standings.flatMap((standing): Finding[] => {
    const found = twist(standing);
    const last = lastEntry(entries, standing);
    if (!found || !last) return [];
    return [at(last, 'shots', 'log.racking', { station: standing.report.name, carriage: found.carriage, amount: found.amount.toFixed(1) })];
  });
}

/** mm by which the far corner is off what the other three say. */
function twist({ station, fresh }: Standing): { carriage: string; amount: number } | undefined {
  const other = station.travels.filter((travel) => travel !== station.own).at(-1);
  if (!station.own || !other) return undefined;
  const terms = (['right', 'up'] as const).map((part) => product(station, other, points(fresh).filter(isMark), part));
  const [right, up] = terms;
  if (!right || !up || Math.max(Math.abs(right.value) / right.u, Math.abs(up.value) / up.u) < SURE) return undefined;
  return { carriage: other.element, amount: Math.hypot(right.value, up.value) };
}

/** Legs scaled to their travels, so that the term is in mm and the columns are alike. */
function product(station: Station, other: Travel, marks: readonly Mark[], part: 'right' | 'up'): { value: number; u: number } | undefined {
  const own = station.own!;
  const share = (travel: Travel, mark: Mark) => (mark.carriages[travel.element]! - travel.shortest) / (travel.longest - travel.shortest || 1);
  const rows = marks.map((mark) => [1, share(own, mark), share(other, mark), share(own, mark) * share(other, mark)]);
  if (rows.length < 4) return undefined;
  const fit = leastSquares(fromRows(rows), marks.map((mark) => mark[part]), marks.map((mark) => mark.u));
  return fit.rank < 4 ? undefined : { value: fit.coefficients[3]!, u: Math.sqrt(fit.covariance.data[15]!) };
}
