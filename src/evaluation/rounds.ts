/** The rounds of one station in the visit: the marks between which nothing moved that could have moved them. */
import type { Limits, LogEntry, Reading, StationReport } from '../model/index.ts';
import { toReading } from '../verdict/index.ts';
import { items, station } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';

export interface SessionRound {
  /** In its session, from 1. */
  readonly number: number;
  /** All of its marks, the oldest first. */
  readonly readings: readonly Reading[];
  /** As it stood when the last of them was read; worked out when it is asked for. */
  readonly report: StationReport;
}

/** A session has a handful; of a log that never begins another, the last are enough. */
const MOST = 24;

export interface Moments {
  state(count: number): State;
  /** @param limits instead of those that were in force then */
  report(name: string, count: number, limits?: Limits): StationReport | undefined;
}

/** Up to the entry `count`, the oldest first. */
export function roundsOf(
  entries: readonly LogEntry[],
  name: string,
  count: number,
  { state, report }: Moments,
): SessionRound[] {
  const rounds: SessionRound[] = [];
  const { session } = state(count);
  for (let k = count - 1; k >= Math.max(0, session) && rounds.length < MOST; k--) {
    const { entry } = entries[k]!;
    if (entry.kind !== 'marks' || entry.station !== name) continue;
    const then = state(k + 1);
    const round = then.rounds.get(name);
    // Marks of a station that was not on the path then are nobody's.
    if (!round || !then.system || !station(then.system, name) || round.number === rounds.at(-1)?.number) continue;
    rounds.push({
      number: round.number,
      readings: items(round.readings).map(toReading),
      get report() {
        return report(name, k + 1)!;
      },
    });
  }
  return rounds.reverse();
}
