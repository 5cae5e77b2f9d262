/** The rounds of one station in the session: the marks between which nothing moved that could have moved them. */
import type { LogEntry, StationReport } from '../model/index.ts';
import type { State } from './state.ts';

export interface SessionRound {
  /** As it stood when the last of its marks was read. */
  readonly report: StationReport;
}

/** A session has a handful; of a log that never begins another, the last are enough. */
const MOST = 24;

export interface Moments {
  state(count: number): State;
  report(name: string, count: number): StationReport | undefined;
}

/** Up to the entry `count`, the oldest first. */
export function roundsOf(entries: readonly LogEntry[], name: string, count: number, { state, report }: Moments): SessionRound[] {
  const rounds: SessionRound[] = [];
  let last: string | undefined;
  for (let k = count - 1; k >= 0 && rounds.length < MOST; k--) {
    const { entry } = entries[k]!;
    if (entry.kind === 'session') break;
    if (entry.kind !== 'marks' || entry.station !== name) continue;
    const round = state(k + 1).rounds.get(name);
    const key = round && `${round.epoch} ${round.since}`;
    if (key === undefined || key === last) continue;
    last = key;
    const found = report(name, k + 1);
    if (found) rounds.push({ report: found });
  }
  return rounds.reverse();
}
