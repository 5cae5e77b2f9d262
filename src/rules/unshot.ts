/**
 * Put back in service on stale marks, or with corners missing: the finding depends on what came after the last shot.
 */
import { findingAt, lookup, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { FindingCode } from '../../shared/findings.ts';
import { isComplete } from '../verdict/index.ts';
import { freshReadings, lastMoved, type State } from '../estimate/index.ts';
import type { Station } from '../machine/index.ts';
import { listed } from '../words/index.ts';
import { isReturn } from './rule.ts';

const CODES = {
  lock: 'release.locked',
  removal: 'release.removed',
  other: 'release.stale',
  corners: 'release.corners',
} as const satisfies Record<string, FindingCode>;

export function unshot(logged: LogEntry, state: State): Finding[] {
  if (!isReturn(logged) || !state.system) return [];
  const lacking = state.system.stations.map((station) => [station.name, lacks(state, station)] as const);
  return (['lock', 'removal', 'other', 'corners'] as const).flatMap((why) => {
    const names = lacking.filter(([, lack]) => lack === why).map(([name]) => name);
    return names.length > 0 ? [findingAt(logged, pathTo('release'), CODES[why], { stations: listed(names) })] : [];
  });
}

/** What a station with limits lacks. */
function lacks(state: State, station: Station): keyof typeof CODES | undefined {
  const limits = state.limits && lookup(state.limits.stations, station.name);
  if (!limits) return undefined;
  const fresh = freshReadings(state, station);
  if (fresh.length === 0) return lastMoved(state, station).by ?? 'other';
  return isComplete(state, station, fresh) ? undefined : 'corners';
}
