/** What the log means now, and what to do next. Lengths mm, angles rad, turns in turns (positive = in). */
import type { Units } from './machine.ts';
import type { Direction, Displacement } from './quantity.ts';
import type { Mark } from './entry.ts';
import type { Finding } from './finding.ts';
import type { Learnt } from './learnt.ts';
import type { Axes } from './axes.ts';

/**
 * The first that holds: no limits apply to it; never marked; something has come since its marks that could have moved them;
 * they hold, but not at all the places that its limits need; then what they say.
 */
export type StationState = 'unlimited' | 'unread' | 'stale' | 'incomplete' | 'outside' | 'borderline' | 'within';
export type Verdict = 'within' | 'continue' | 'blocked';

export interface Requirement {
  readonly limit: 'centre' | 'spread' | 'plumb';
  /** The stop (or the leg in mm) where a centre was largest. */
  readonly at?: string | number;
  readonly with?: Readonly<Record<string, string | number>>;
  /** mm, or rad for plumb; absent where nothing valid was read. */
  readonly value?: number;
  readonly u?: number;
  readonly max: number;
  readonly probability?: number;
  /** `value` and `u` are the model's: nothing was read that gives them. */
  readonly predicted?: true;
}

export interface Slope extends Axes {
  /** rad */
  readonly u: Axes;
}

/** What stands at one place of the carriages: the marks read there, averaged. */
export interface Reading {
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
  readonly carriages: Readonly<Record<string, number>>;
  readonly height: number;
  readonly right?: number;
  readonly up?: number;
  /** Standard uncertainty of either part, mm. */
  readonly u: number;
  readonly none: boolean;
  /** The worst among its marks, and the largest diameter, mm. */
  readonly shape?: Mark['shape'];
  readonly size?: number;
  readonly count: number;
  readonly cell: number;
  /** Key into its entry's `spans`. */
  readonly path: string;
}

/** Where the beam runs that arrives at a tape, which machine directions the viewer's right and up are, and the machine's units: what it takes to say a mark. */
export interface TapeFrame {
  readonly runs: Direction;
  readonly right: Direction;
  readonly up: Direction;
  readonly units: Units;
}

/** What moves a tape: all that it takes to say where it stands. */
export interface Carriage {
  /** That it carries, and what it is called. */
  readonly element: string;
  readonly rides: string;
  /** The element (or `the tube`) that its legs are counted from, and the machine's direction in which they grow. */
  readonly from: string;
  readonly runs: Direction;
  readonly units: Units;
  /** mm, by the name of the stop; every leg lies between the shortest and the longest. */
  readonly legs: Readonly<Record<string, number>>;
  readonly shortest: number;
  readonly longest: number;
}

export interface StationReport {
  readonly name: string;
  readonly frame: TapeFrame;
  /** Diameter of the hole that the tape covers, mm. */
  readonly aperture: number;
  /** Those that move the tape here, in the order of the path. */
  readonly carriages: readonly Carriage[];
  readonly state: StationState;
  readonly probability?: number;
  readonly requirements: readonly Requirement[];
  readonly slope?: Slope;
  /** The last readings, fresh or stale. */
  readonly readings: readonly Reading[];
  /** Index of the cell that made the readings stale; absent where they hold. */
  readonly staleSince?: number;
}

interface StepCommon {
  /** What to do, in words. */
  readonly say: string;
  /** Why this and not another. */
  readonly why?: string;
  /** Text to append to the workbook when it is done. */
  readonly cell?: string;
  /** Nobody knows yet what it does: the next marks tell. */
  readonly isTrial?: true;
  /** The lens is taken out or put back for it. */
  readonly handlesLens?: true;
}

export interface ShotRequest {
  readonly at: string | number;
  readonly with?: Readonly<Record<string, string | number>>;
  readonly height?: number;
}

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

/** The next reading, reading noise included. */
export interface Expected extends Axes {
  readonly station: string;
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
  readonly u: Axes & { readonly r: number };
  /** Where it comes with 95 %. */
  readonly ellipse: Ellipse;
}

/** Half axes, mm; `angle` of the long one, rad from the viewer's right toward up, −π/2 … π/2. */
export interface Ellipse {
  readonly major: number;
  readonly minor: number;
  readonly angle: number;
}

/** A move that brings every station within at once. */
export interface Whole {
  /** That all of them are within afterwards. */
  readonly probability: number;
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
}

export interface Evaluation {
  readonly verdict: Verdict;
  readonly stations: readonly StationReport[];
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
  /** Of the move among `steps`: that its station and those before it are within afterwards. */
  readonly chance?: number | undefined;
  /** Cells with marks that nothing explains yet. */
  readonly unexplained: number;
  /** Offered beside `steps`, where it is likely to be less work. */
  readonly whole?: Whole | undefined;
  /** The most surprising first. */
  readonly learnt: readonly Learnt[];
  /** Those that the workbook turns off among them. */
  readonly findings: readonly Finding[];
}
