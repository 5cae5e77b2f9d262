/** A station that is shot and has no limits: it can never be called within. */
import { findingAt, lookup, type Finding } from '../model/index.ts';
import type { Outcome } from './rule.ts';

/** Said once per station and visit, where it was shot last. */
export function noLimits({ state, visit }: Outcome): Finding[] {
  return (state.system?.stations ?? []).flatMap(({ name }): Finding[] => {
    if (state.limits && lookup(state.limits.stations, name)) return [];
    const last = visit.findLast(({ entry }) => entry.kind === 'marks' && entry.station === name);
    return last ? [findingAt(last, 'marks', 'log.noLimits', { station: name })] : [];
  });
}
