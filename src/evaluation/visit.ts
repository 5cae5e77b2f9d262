/**
 * One station in one visit, a stretch of the log: as found (the round of its first marks), as left (that of its last
 * marks), and what moved its beam before and after.
 */
import type { LogEntry, StationReport, Visit } from '../model/index.ts';
import { lastMoved, type State } from '../estimate/index.ts';
import { station, type Station } from '../machine/index.ts';
import type { Moments } from './rounds.ts';

/** A round when the last of its marks was read, judged by the limits at the end of the visit. */
export interface VisitedRound {
  readonly report: StationReport;
  /** Index of the entry of its last marks. */
  readonly index: number;
}

/** Entries by their index. */
export interface StationVisit {
  readonly found?: VisitedRound;
  readonly left?: VisitedRound;
  /**
   * What moved the beam here after the visit began and before the first marks; without marks, before the next visit.
   */
  readonly movedBefore?: number;
  /** What moved it after the last marks and before the next visit began. */
  readonly movedAfter?: number;
}

/** A visit, and the index of the entry with which the next one begins, or of the one after the last. */
export type VisitSpan = Pick<Visit, 'from' | 'to' | 'opening'> & { readonly until: number };

/** An epoch begins with the visit. */
export function visitOf(
  entries: readonly LogEntry[],
  name: string,
  { from, to, until, opening }: VisitSpan,
  moments: Moments,
): StationVisit {
  const marks: number[] = [];
  for (let k = from; k < to; k++) {
    const { entry } = entries[k]!;
    if (entry.kind === 'marks' && entry.station === name && moments.state(k + 1).rounds.has(name)) marks.push(k);
  }
  const [first, last] = [marks[0], marks.at(-1)];
  const movedBefore = movedSince(moments.state(first ?? until), name, opening ? from : from - 1);
  if (first === undefined || last === undefined) return { ...(movedBefore !== undefined && { movedBefore }) };
  const firstRound = roundAt(moments.state(first + 1), name);
  const endOfFirst = marks.findLast((k) => roundAt(moments.state(k + 1), name) === firstRound)!;
  const { limits } = moments.state(to);
  const roundEndingAt = (index: number): VisitedRound | undefined => {
    const report = moments.report(name, index + 1, limits);
    return report && { report, index };
  };
  const [found, left] = [roundEndingAt(endOfFirst), roundEndingAt(last)];
  const movedAfter = movedSince(moments.state(until), name, last);
  return {
    ...(found && { found }),
    ...(left && { left }),
    ...(movedBefore !== undefined && { movedBefore }),
    ...(movedAfter !== undefined && { movedAfter }),
  };
}

function movedSince(state: State, name: string, since: number): number | undefined {
  const at: Station | undefined = state.system && station(state.system, name);
  // For a station that no longer exists, only the beginning of the epoch is known.
  const moved = at ? lastMoved(state, at) : state.began;
  return moved.order > since ? moved.order : undefined;
}

function roundAt({ rounds }: State, name: string): string {
  const round = rounds.get(name)!;
  return `${round.epoch} ${round.since}`;
}
