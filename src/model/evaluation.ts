/** The result of the log now, and what to do next. Lengths mm, angles rad, turns in turns (positive = in). */
import type { Units } from './machine.ts';
import type { Direction, Displacement } from './quantity.ts';
import type { Mark } from './entry.ts';
import type { Finding } from './finding.ts';
import type { Learnt } from './learnt.ts';
import type { Axes } from './axes.ts';
import type { Path } from './path.ts';

/**
 * The state of a station, with what belongs to it. The first that applies: no limits for the station; never marked;
 * something after its marks could have moved them; marks are missing that its limits need; otherwise the result of the
 * comparison, with the probability that every limit is met. `staleSince` is the index of the cell after which the
 * readings are stale.
 */
export type StationStatus =
  | { readonly state: 'unlimited'; readonly staleSince?: number; readonly probability?: never }
  | { readonly state: 'unread' | 'incomplete'; readonly staleSince?: never; readonly probability?: never }
  | { readonly state: 'stale'; readonly staleSince: number; readonly probability?: never }
  /** Without a probability if a shot missed its tape. */
  | { readonly state: 'outside'; readonly staleSince?: never; readonly probability?: number }
  | { readonly state: 'borderline' | 'within'; readonly staleSince?: never; readonly probability: number };

/** The name of a station's state. */
export type StationState = StationStatus['state'];
/** A state as a sign shows it: also a mark that the log does not explain, and a part that blocks the work. */
export type ShownState = StationState | 'unexplained' | 'blocked';
/** Whether the machine is within limits, another step is advised, or no step helps. */
export type Verdict = 'within' | 'continue' | 'blocked';

/** One limit of a station, compared with its marks. */
export interface Requirement {
  readonly limit: 'centre' | 'spread' | 'plumb';
  /** The stop (or the leg in mm) with the largest distance from the centre. */
  readonly at?: string | number;
  readonly with?: Readonly<Record<string, string | number>>;
  /** mm, or rad for plumb; absent if nothing valid was read. */
  readonly value?: number;
  readonly u?: number;
  readonly max: number;
  readonly probability?: number;
  /** `value` and `u` are predicted: no reading gives them. */
  readonly predicted?: true;
}

/** The slope of the beam relative to the nominal axis, rad, viewer's frame. */
export interface Slope extends Axes {
  /** rad */
  readonly u: Axes;
}

/** The marks read at one place of the carriages, averaged. */
export interface Reading {
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
  readonly carriages: Readonly<Record<string, number>>;
  readonly height: number;
  readonly right?: number;
  readonly up?: number;
  /** Standard uncertainty of either coordinate, mm. */
  readonly u: number;
  readonly none: boolean;
  /** The worst shape among its marks, and the largest diameter, mm. */
  readonly shape?: Mark['shape'];
  readonly size?: number;
  readonly count: number;
  readonly cell: number;
  /** Key into its entry's `spans`. */
  readonly path: Path;
}

/**
 * The direction of the beam that arrives at a tape, the machine directions of the viewer's right and up, and the units:
 * what a mark in words needs.
 */
export interface TapeFrame {
  readonly runs: Direction;
  readonly right: Direction;
  readonly up: Direction;
  readonly units: Units;
}

/** A carriage that moves a tape: what its position in words needs. */
export interface Carriage {
  /** The element that it carries, and its own name. */
  readonly element: string;
  readonly rides: string;
  /** The element (or `the tube`) that its legs are counted from, and the machine direction in which they grow. */
  readonly from: string;
  readonly runs: Direction;
  readonly units: Units;
  /** mm, by the name of the stop; every leg lies between the shortest and the longest. */
  readonly legs: Readonly<Record<string, number>>;
  readonly shortest: number;
  readonly longest: number;
}

/** The state of one station. */
export type StationReport = StationStatus & {
  readonly name: string;
  readonly frame: TapeFrame;
  /** Diameter of the aperture that the tape covers, mm. */
  readonly aperture: number;
  /** The carriages that move the tape here, in the order of the path. */
  readonly carriages: readonly Carriage[];
  readonly requirements: readonly Requirement[];
  readonly slope?: Slope;
  /** The last readings, fresh or stale. */
  readonly readings: readonly Reading[];
};

interface StepCommon {
  /** What to do, in words. */
  readonly say: string;
  /** Why this step and no other. */
  readonly why?: string;
  /** Text to append to the workbook after the step. */
  readonly cell?: string;
  /** The effect of the step is not known yet: the next marks show it. */
  readonly isTrial?: true;
  /** In a few words, for a line, where kind and parts do not give them: `make safe (2 open)`. */
  readonly brief?: string;
  /** The lens is removed or put back for it. */
  readonly handlesLens?: true;
}

/** A shot that a step asks for. */
export interface ShotRequest {
  readonly at: string | number;
  readonly with?: Readonly<Record<string, string | number>>;
  readonly height?: number;
}

/** One advised step. */
export type Step = StepCommon &
  (
    | { readonly kind: 'turn'; readonly part: string; readonly screw: string; readonly turns: number }
    | { readonly kind: 'shift'; readonly part: string; readonly by: Displacement; readonly end?: 'exit' | 'tail' }
    | { readonly kind: 'lock'; readonly part: string; readonly to: 'loose' | 'tight' }
    | { readonly kind: 'care'; readonly part: string; readonly did: string }
    | { readonly kind: 'check'; readonly items: readonly string[] }
    | { readonly kind: 'repair' }
    | { readonly kind: 'release' }
    | { readonly kind: 'shoot'; readonly station: string; readonly shots: readonly ShotRequest[] }
  );

/** The predicted next mark, reading noise included. */
export interface Expected extends Axes {
  readonly station: string;
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
  readonly u: Axes & { readonly r: number };
  /** The 95 % ellipse. */
  readonly ellipse: Ellipse;
}

/** Semi-axes, mm; `angle` of the major axis, rad from the viewer's right toward up, −π/2 … π/2. */
export interface Ellipse {
  readonly major: number;
  readonly minor: number;
  readonly angle: number;
}

/** A move that brings every station within limits at once. */
export interface Whole {
  /** The probability that all stations are within limits afterwards. */
  readonly probability: number;
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
}

/** Near an even chance: what shooting again costs, and what a turn at once. */
export interface TwoWays {
  readonly station: string;
  /** That it is within limits, as the marks stand. */
  readonly probability: number;
  /**
   * `tapes`: in all, after which it is shown to be within if the marks stay where they are; or after which it is not
   * (`isEnough` false).
   */
  readonly again: { readonly step: Step; readonly tapes: number; readonly isEnough: boolean };
  /** `chance`: that the station and those before it are within afterwards; `tapes`: to be shot then. */
  readonly turn: { readonly steps: readonly Step[]; readonly chance: number; readonly tapes: number };
}

/** The result of the log after an entry. */
export interface Evaluation {
  readonly verdict: Verdict;
  readonly stations: readonly StationReport[];
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
  /** For the move among `steps`: the probability that its station and those before it are within limits afterwards. */
  readonly chance?: number | undefined;
  /** Number of cells with marks that contradict the log and are not explained yet. */
  readonly unexplained: number;
  /** The choice that `steps` makes, where it is nearly even. */
  readonly ways?: TwoWays | undefined;
  /** An alternative to `steps` that is likely to be less work. */
  readonly whole?: Whole | undefined;
  /** The largest deviation first. */
  readonly learnt: readonly Learnt[];
  /** Including those that the workbook turns off. */
  readonly findings: readonly Finding[];
}
