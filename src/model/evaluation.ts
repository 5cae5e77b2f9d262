/** What the log means now, and what to do next. Lengths mm, angles rad, turns in turns (positive = in). */
import type { Direction, Displacement } from './quantity.ts';
import type { Finding } from './finding.ts';
import type { Learnt } from './learnt.ts';

export type StationState = 'unread' | 'stale' | 'outside' | 'borderline' | 'within';
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
}

/** Per axis of the viewer's frame. */
export interface Axes {
  readonly right: number;
  readonly up: number;
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
  readonly count: number;
  readonly cell: number;
  /** Key into its entry's `spans`. */
  readonly path: string;
}

export interface StationReport {
  readonly name: string;
  /** Where the beam runs that arrives here, and which machine directions the viewer's right and up are. */
  readonly frame: { readonly runs: Direction; readonly right: Direction; readonly up: Direction };
  /** Diameter of the hole that the tape covers, mm. */
  readonly aperture: number;
  /** The carriages that move the tape here, in the order of the path: the element that each carries, and what it is called. */
  readonly carriages: readonly { readonly element: string; readonly rides: string }[];
  readonly state: StationState;
  readonly probability?: number;
  readonly requirements: readonly Requirement[];
  readonly slope?: Slope;
  /** The last readings, fresh or stale. */
  readonly readings: readonly Reading[];
  /** Index of the cell that made the readings stale. */
  readonly staleSince?: number;
}

interface StepCommon {
  /** What to do, in words. */
  readonly say: string;
  /** Why this and not another. */
  readonly why?: string;
  /** Text to append to the workbook when it is done. */
  readonly cell?: string;
  /** The lens is taken out or put back for it. */
  readonly handlesLens?: true;
}

export interface ShotRequest {
  readonly at: string | number;
  readonly with?: Readonly<Record<string, string | number>>;
  readonly height?: number;
}

export type Step = StepCommon & (
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
  /** Offered beside `steps`, where it is likely to be less work. */
  readonly whole?: Whole | undefined;
  /** The most surprising first. */
  readonly learnt: readonly Learnt[];
  /** Those that the workbook turns off among them. */
  readonly findings: readonly Finding[];
}
