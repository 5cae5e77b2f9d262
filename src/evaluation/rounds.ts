/** The rounds of one station in the visit: marks between which nothing moved that affects them. */
import type { Limits, LogEntry, Reading, StationReport } from '../model/index.ts';
import { toReading } from '../verdict/index.ts';
import { items, station } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';

/** A round of one station in its session. */
export interface SessionRound {
  /** Number in its session, from 1. */
  readonly number: number;
  /** All of its marks, oldest first. */
  readonly readings: readonly Reading[];
  /** The station when the last of them was read; computed when it is read. */
  readonly report: StationReport;
}

/** Maximum number of rounds. A session has a few; of a log with a single session, the last are enough. */
const MOST = 24;

export interface Moments {
  state(count: number): State;
  /** @param limits instead of those that applied then */
  report(name: string, count: number, limits?: Limits): StationReport | undefined;
}

/** Rounds up to the entry `count`, oldest first. */
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
    // Marks of a station that was not on the path then belong to no round.
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
