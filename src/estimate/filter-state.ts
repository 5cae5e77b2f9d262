/** The state of the filter in a segment of the log (`filter.ts`), for the code that advances it step by step. */
import type { Distribution } from './distribution.ts';
import type { Alternative, SharedList } from '../machine/index.ts';
import type { Evidence } from './scatter.ts';
import type { Moment, LoggedReading } from './logged-reading.ts';

/** Marks that fail their gate: they lie further from their prediction than chance explains. */
export interface GateFailure {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly LoggedReading[];
  /** The estimate before these marks, with the marks of the same cell that pass their gate; and without them. */
  readonly before: Distribution;
  readonly prior: Distribution;
  /** Turns of screws of mirrors before the station, since the previous marks of the station. */
  readonly response: readonly Turn[];
  /** Screws turned by an eighth or more since the previous marks, although the marks are where they were. */
  readonly unmoved?: readonly Turn[];
}

/** One turn of a screw, turns, positive = in. */
export interface Turn {
  readonly part: string;
  readonly screw: string;
  readonly turns: number;
}

/**
 * Two marks of one place, with nothing moved in between, that differ by more than reading explains; or the marks of one
 * shot, which is then both `earlier` and `later`.
 */
export interface Discrepancy {
  readonly moment: Moment;
  readonly earlier: LoggedReading;
  readonly later: LoggedReading;
}

/** Assumptions about the machine and the reading that the workbook does not state. */
export interface Assumption {
  /** Factor on the declared reading uncertainty, at least 1. */
  readonly noise: number;
  /** The mount that is described wrongly, with the description that fits. */
  readonly mount?: Alternative;
}

/** The filter after an event of a segment. */
export interface FilterState extends Assumption {
  readonly distribution: Distribution;
  /** The estimate at the end of the segment before, if nothing has bent its rails since. */
  readonly rails: Distribution | undefined;
  /** Confirmed contradictions of the log since the beam was last unknown, latest last. */
  readonly contradictions: readonly GateFailure[];
  /** Marks that failed their gate and have not been repeated. */
  readonly unexplained: readonly GateFailure[];
  /** Readings that a repeat did not confirm. */
  readonly misread: readonly LoggedReading[];
  readonly evidence: Evidence;
  readonly discrepancies: readonly Discrepancy[];
  /** Responses to turns that contradict the machine cell and agree with `mount`. */
  readonly responses: number;
  /** By mirror: how many times marks of a station that had been read before have shown the effect of its turns. */
  readonly responded: ReadonlyMap<string, number>;
  /** Turns of the segment, oldest first. */
  readonly turns: SharedList<Turn> | undefined;
  /** By station: the number of turns before it was last read, and whether a mark failed its gate then. */
  readonly lastRead: ReadonlyMap<number, { readonly turns: number; readonly failed: boolean }>;
  /** By station and place: the last reading, and the number of turns before it. */
  readonly lastAt: ReadonlyMap<string, { readonly reading: LoggedReading; readonly turns: number }>;
  /**
   * Log density of the marks so far under this state's assumptions, and the number of events that the log does not
   * mention.
   */
  readonly logDensity: number;
  readonly slips: number;
  /** Number of times that another mount was tried in vain. */
  readonly tried: number;
}
