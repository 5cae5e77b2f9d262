/** A station that is shot and has no limits: it can never be called within. */
import { lookup, type Finding } from '../../model/index.ts';
import { at, type Outcome } from './rule.ts';

/** Said once per station, where it was shot last. */
export function noLimits({ state, entries, estimate }: Outcome): Finding[] {
  return estimate.system.stations.flatMap(({ name }): Finding[] => {
    if (state.limits && lookup(state.limits.stations, name)) return [];
    const last = entries.findLast(({ entry }) => entry.kind === 'marks' && entry.station === name);
    return last ? [at(last, 'marks', 'log.noLimits', { station: name })] : [];
  });
}
