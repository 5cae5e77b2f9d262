/** A station that is shot and has no limits: it can never be within. */
import { findingAt, lookup, pathTo, type Finding } from '../model/index.ts';
import type { Outcome } from './rule.ts';

/** Reported once per station and visit, at its last shot. */
export function noLimits({ state, visit }: Outcome): Finding[] {
  return (state.system?.stations ?? []).flatMap(({ name }): Finding[] => {
    if (state.limits && lookup(state.limits.stations, name)) return [];
    const last = visit.findLast(({ entry }) => entry.kind === 'marks' && entry.station === name);
    return last ? [findingAt(last, pathTo('marks'), 'log.noLimits', { station: name })] : [];
  });
}
