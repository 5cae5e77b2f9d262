/**
 * The log over time, as to what keeps optics clean: what was found and done, when it is due, and what power says of
 * it. Dates are calendar days as they were written (`2026-03-14`), without time zones; power in W; sessions are counted
 * from 1 in the order of the file. What is not known is absent.
 */
import type { CareEntry, Found } from './entry.ts';
import type { CareInterval } from './machine.ts';

/** JCGM 100: `u` is the standard uncertainty, `expanded` half the interval that holds the value with 95 %. */
export interface Uncertain {
  readonly value: number;
  readonly u: number;
  readonly expanded: number;
}

/** When something was done: the session, its day, and the cell that says so. */
export interface Occasion {
  readonly session: number;
  readonly date?: string;
  readonly cell: number;
}

export interface CareHistory {
  /** Every part that was cared for or has an interval, in the order of the beam. */
  readonly parts: readonly PartHistory[];
  /** In the order of the file. */
  readonly power: readonly PowerReading[];
  /** One power reading of a station and the one before, where something happened in between. */
  readonly arrivals: readonly ArrivalChange[];
  readonly transmissions: readonly Transmission[];
  /** Against the session before that measured the same: as found here, as left there. */
  readonly changes: readonly TransmissionChange[];
  /** Of the optics that were measured one by one in the last session, the one that lets through least; only where that is beyond doubt. */
  readonly weakest?: { readonly part: string; readonly transmission: Uncertain };
  /** What lets through less than it did, and lost most; only where the loss is beyond its uncertainty. */
  readonly worn?: TransmissionChange;
}

export interface PartHistory {
  readonly part: string;
  /** The oldest first. */
  readonly cares: readonly CareDone[];
  readonly every?: CareInterval;
  readonly due?: Due;
  /** What was found last and not put right. */
  readonly left?: Found;
}

export type CareDone = Occasion & Pick<CareEntry, 'by' | 'found' | 'did' | 'with' | 'refit'>;

/** The day, or why there is none: hours of work are not in the log; never cared for; nobody wrote down when. */
export type Due = { readonly on: string } | { readonly unknown: 'hours' | 'never' | 'undated' | 'too far' };

/** What arrives at a station: through every optic before it, and through the lens where it ends the path. */
export interface PowerReading extends Occasion {
  readonly station: string;
  readonly readings: readonly number[];
  /** Their mean, W; no uncertainty where nothing arrived. */
  readonly mean: number;
  readonly u?: number;
}

/** `parts`, and what was done to each. */
export interface Between {
  readonly cleaned: readonly string[];
  readonly replaced: readonly string[];
  readonly moved: readonly string[];
  /** Events, a changed machine, and cells that cannot be read: anything may have changed. */
  readonly disturbed: readonly string[];
}

/** As a ratio: 1.1 is a tenth more than before. */
export interface ArrivalChange extends Uncertain {
  readonly station: string;
  readonly from: Occasion;
  readonly to: Occasion;
  readonly between: Between;
}

/** The share of the power that passes `through` these elements, from one measured station to the next. */
export interface Transmission extends Uncertain {
  readonly through: readonly string[];
  readonly from: Occasion & { readonly station: string };
  readonly to: Occasion & { readonly station: string };
}

/** Transmission now less transmission then: negative is a loss. */
export interface TransmissionChange extends Uncertain {
  readonly through: readonly string[];
  readonly then: Transmission;
  readonly now: Transmission;
  /** Of `through`, cleaned between the two. */
  readonly cleaned: readonly string[];
}
