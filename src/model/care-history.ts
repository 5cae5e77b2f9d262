/**
 * The log over time, for the care of optics: condition, actions, due dates, and the power readings. Dates are calendar
 * days as written (`2026-03-14`), without time zones; power in W; sessions are counted from 1 in the order of the file.
 * Unknown values are absent.
 */
import type { CareEntry, Condition } from './entry.ts';
import type { CareInterval } from './machine.ts';

/** JCGM 100: `u` is the standard uncertainty, `expanded` half the 95 % interval. */
export interface Uncertain {
  readonly value: number;
  readonly u: number;
  readonly expanded: number;
}

/** When something was done: the session, its day, and the cell that logs it. */
export interface Occasion {
  readonly session: number;
  readonly date?: string;
  readonly cell: number;
}

/** Everything that the log contains about care and power. */
export interface CareHistory {
  /** Every part that was cared for or has an interval, in the order of the beam. */
  readonly parts: readonly PartHistory[];
  /** In the order of the file. */
  readonly power: readonly PowerReading[];
  /** The ratio of two consecutive power readings of a station between which something was done. */
  readonly arrivals: readonly ArrivalChange[];
  readonly transmissions: readonly Transmission[];
  /** Against the last session that measured the same elements: as found here, as left there. */
  readonly changes: readonly TransmissionChange[];
  /**
   * The element with the lowest transmission in the last session, if each was measured on its own and the difference is
   * significant.
   */
  readonly weakest?: { readonly part: string; readonly transmission: Uncertain };
  /** The elements with the largest loss of transmission, if it is significant. */
  readonly worn?: TransmissionChange;
}

/** The care of one part. */
export interface PartHistory {
  readonly part: string;
  /** The oldest first. */
  readonly cares: readonly CareDone[];
  readonly every?: CareInterval;
  readonly due?: Due;
  /** The last condition that was found and not corrected. */
  readonly left?: Condition;
}

/** One care of a part. */
export type CareDone = Occasion & Pick<CareEntry, 'by' | 'found' | 'did' | 'with' | 'refit'>;

/**
 * The day; or the reading of the hour counter, with the hours that were left at its last reading (negative: overdue) and
 * the day expected from the hours worked until then; or why there is none: the hours of work are not logged; never
 * cared for; the care has no date.
 */
export type Due =
  | { readonly on: string }
  | { readonly at: number; readonly left: number; readonly expected?: string }
  | { readonly unknown: 'hours' | 'never' | 'undated' | 'too far' };

/** The power at a station: after every optic before it, and after the lens at the end of the path. */
export interface PowerReading extends Occasion {
  readonly station: string;
  readonly readings: readonly number[];
  /** The mean, W; no uncertainty if nothing arrived. */
  readonly mean: number;
  readonly u?: number;
}

/** The parts, by what was done to them between two readings. */
export interface Between {
  readonly cleaned: readonly string[];
  readonly replaced: readonly string[];
  readonly moved: readonly string[];
  /** Events, a changed machine, and unreadable cells: anything may have changed. */
  readonly disturbed: readonly string[];
}

/** A ratio: 1.1 is a tenth more than before. */
export interface ArrivalChange extends Uncertain {
  readonly station: string;
  readonly from: Occasion;
  readonly to: Occasion;
  readonly between: Between;
}

/** The transmission `through` these elements, from one measured station to the next. */
export interface Transmission extends Uncertain {
  readonly through: readonly string[];
  readonly from: Occasion & { readonly station: string };
  readonly to: Occasion & { readonly station: string };
}

/** Transmission now minus transmission then: negative is a loss. */
export interface TransmissionChange extends Uncertain {
  readonly through: readonly string[];
  readonly then: Transmission;
  readonly now: Transmission;
  /** The elements of `through` that were cleaned in between. */
  readonly cleaned: readonly string[];
}
