/** What an account of a chapter holds (`account.ts`), for those who make it step by step. */
import type { Distribution } from './distribution.ts';
import type { Alternative, SharedList } from '../machine/index.ts';
import type { Evidence } from './scatter.ts';
import type { Moment, LoggedReading } from './logged-reading.ts';

/** Marks that did not come where they were predicted, by more than chance. */
export interface GateFailure {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly LoggedReading[];
  /** The estimate until then, with the marks of the same cell that did come; and without them. */
  readonly before: Distribution;
  readonly prior: Distribution;
  /** Turns of screws of mirrors before the station since the marks before. */
  readonly response: readonly Turn[];
  /** Screws that were turned since the marks before, an eighth or more, and after which those marks came again. */
  readonly unmoved?: readonly Turn[];
}

/** One turn of a screw, turns, positive = in. */
export interface Turn {
  readonly part: string;
  readonly screw: string;
  readonly turns: number;
}

/** Two marks of one place, nothing moved in between, that differ by more than reading explains; or the marks of one shot. */
export interface Discrepancy {
  readonly moment: Moment;
  readonly earlier: LoggedReading;
  readonly later: LoggedReading;
}

/** What is assumed of the machine and of the reading beyond what the workbook says. */
export interface Assumption {
  /** Factor on the declared reading uncertainty, at least 1. */
  readonly noise: number;
  /** The mount that is described wrongly, and how it would read. */
  readonly mount?: Alternative;
}

export interface FilterState extends Assumption {
  readonly distribution: Distribution;
  /** The estimate at the end of the chapter before, where its rails are still bent so. */
  readonly rails: Distribution | undefined;
  /** Since the beam was last unknown, latest last. */
  readonly contradictions: readonly GateFailure[];
  readonly unexplained: readonly GateFailure[];
  /** Readings that a repeat did not confirm. */
  readonly misread: readonly LoggedReading[];
  readonly evidence: Evidence;
  readonly discrepancies: readonly Discrepancy[];
  /** Responses to turns that contradict the machine cell and agree with `mount`. */
  readonly responses: number;
  /** By mirror: how often marks of a station that had been read before have shown what its turns did. */
  readonly responded: ReadonlyMap<string, number>;
  /** Turns of the chapter, oldest first; by station, after how many of them it was last read, and whether a mark failed its gate there. */
  readonly turns: SharedList<Turn> | undefined;
  readonly lastRead: ReadonlyMap<number, { readonly turns: number; readonly failed: boolean }>;
  /** By station and place what was last read there, after how many turns. */
  readonly lastAt: ReadonlyMap<string, { readonly reading: LoggedReading; readonly turns: number }>;
  /** How well the log so far is predicted, and how often something happened that it does not say. */
  readonly logDensity: number;
  readonly slips: number;
  /** How often another mount was tried in vain. */
  readonly tried: number;
}
