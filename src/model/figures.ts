/**
 * What a figure needs to be drawn, as plain data: positions mm in the viewer's frame (looking along the beam, right =
 * beam × up), angles rad, turns positive = in; `units` are those in which results are shown to a person. Who draws adds nothing to it and works nothing out.
 */
import type { Ellipse, StationReport, StationState } from './evaluation.ts';
import type { Axes } from './axes.ts';
import type { ElementKind, Units } from './machine.ts';
import type { Displacement } from './quantity.ts';

/** Where in the text something stands: the cell, and the key into its entry's `spans`. */
export interface TextPlace {
  readonly cell: number;
  readonly path: string;
}

export interface TargetFigure {
  readonly kind: 'target';
  readonly station: string;
  readonly frame: StationReport['frame'];
  readonly state: StationState;
  /** `out of limits (probability within 3 %)` */
  readonly words: string;
  /** Diameter of the hole that the tape covers, mm. */
  readonly aperture: number;
  /** mm: the greatest distance from the middle that is allowed. */
  readonly limit?: number;
  /** Of the beam on this tape where its mark is farthest off, 1/e² diameter, mm; absent where it is not known. */
  readonly beam?: number;
  /** Every place of the carriages that was shot or is asked for; marks name theirs by its index. */
  readonly places: readonly TargetPlace[];
  /** How many rounds the session has here, the first of those that can be shown, and which one is, from 1; 0 where nothing was shot. */
  readonly rounds: number;
  readonly first: number;
  readonly round: number;
  /** The oldest first. */
  readonly marks: readonly TargetMark[];
  /** Marks of which one part alone was read, in the round that is shown: somewhere on a line across the tape. */
  readonly halves: readonly TargetHalf[];
  /** Tapes that the beam missed, in the round that is shown. */
  readonly missed: readonly (TextPlace & { readonly place: number })[];
  /** Where the next marks will come. */
  readonly expected: readonly TargetExpected[];
}

export interface TargetPlace {
  /** By the words of a cell: `near (rear)`, `far (right), M2 far (front)`; empty where no carriage moves the tape. */
  readonly brief: string;
  /** `gantry far from M1 (front), head near M2 (left)` */
  readonly full: string;
}

/** Whether a mark stands for where the beam is now, did so until something moved, or belongs to a round before. */
export type MarkAge = 'fresh' | 'stale' | 'earlier';

export interface TargetMark extends TextPlace {
  readonly place: number;
  readonly round: number;
  readonly age: MarkAge;
  readonly right: number;
  readonly up: number;
  /** Standard uncertainty of either part, mm. */
  readonly u: number;
}

export interface TargetHalf extends TextPlace {
  readonly place: number;
  readonly age: Exclude<MarkAge, 'earlier'>;
  /** The part that was read, and how far from the middle, mm. */
  readonly read: keyof Axes;
  readonly value: number;
  readonly u: number;
}

export interface TargetExpected {
  readonly place: number;
  readonly right: number;
  readonly up: number;
  /** Where it comes with 95 %. */
  readonly ellipse: Ellipse;
}

/** The face of a mount as one stands before its screw heads: places mm from the mirror's middle, right and up as seen there. */
export interface ScrewsFigure {
  readonly kind: 'screws';
  readonly part: string;
  readonly heads: 'behind' | 'beam side';
  /** Of the thread: in is clockwise, or with a left-hand one anticlockwise. */
  readonly hand: 'right' | 'left';
  /** Rim diameter, mm. */
  readonly knob?: number;
  readonly pivot?: Axes;
  readonly screws: readonly ScrewSpot[];
  /** The mark that `moves` is told of. */
  readonly mark: { readonly station: string; readonly place: string; readonly frame: StationReport['frame'] };
}

export interface ScrewSpot {
  readonly name: string;
  /** Absent where nobody has written it down. */
  readonly place?: Axes;
  /** What is advised, or tried; 0 is none. Positive = in. */
  readonly turns: number;
  /** What an eighth of a turn in does to the mark, mm; absent where it is not known. */
  readonly moves?: Axes;
}

/** How far the marks of a station were off, round after round, in this session and those before; the oldest first. */
export interface RoundsFigure {
  readonly kind: 'rounds';
  readonly station: string;
  readonly units: Units;
  /** mm */
  readonly limits: { readonly centre?: number; readonly spread?: number };
  readonly sessions: readonly { readonly title: string; readonly date?: string }[];
  readonly rounds: readonly RoundPoint[];
}

/** One round as it stood when its last mark was read; `cell` and `path` are those of its first mark. */
export interface RoundPoint extends TextPlace {
  /** Index into `sessions`. */
  readonly session: number;
  /** In its session, from 1. */
  readonly round: number;
  readonly state: StationState;
  /** The largest distance of a mark from the middle; absent where a tape was missed. */
  readonly centre?: Amount;
  /** The largest distance between the marks of two places; absent where there are none, or a tape was missed. */
  readonly spread?: Amount;
  /** Tapes that the beam missed. */
  readonly missed: number;
}

/** One station over the visits of a log: how it was left, how it was found again, and where that leads. */
export interface VisitsFigure {
  readonly kind: 'visits';
  readonly station: string;
  readonly units: Units;
  /** mm, as they stand at the end of the log. */
  readonly limits: { readonly centre?: number; readonly spread?: number };
  /** Those in which it was shot, the oldest first. */
  readonly visits: readonly VisitPoint[];
  /** How far from the middle its farthest mark will be if nothing is moved; the last is where that is no longer sure enough, where `unsure` is said. */
  readonly ahead: readonly Band[];
  /** How sure either edge of it is, 0 … 1, and the first day on which the limit is kept less surely. */
  readonly confidence?: number;
  readonly unsure?: string;
  /** The same in sentences, or why nothing is foretold. */
  readonly told?: string;
}

export interface VisitPoint {
  /** From 1, in the order of the file. */
  readonly session: number;
  readonly title?: string;
  /** Its first marks in the visit, where they are not its last as well: then `left` is how it was found, too. */
  readonly found?: VisitMarks;
  readonly left: VisitMarks;
  /** Index of the visit that left the marks which drifted to those of this one, nothing having been moved in between. */
  readonly from?: number;
}

export interface VisitMarks {
  /** A calendar day, where the log has one. */
  readonly date?: string;
  /** The largest distance from the middle, and between two marks. */
  readonly centre?: Amount;
  readonly spread?: Amount;
  /** Tapes that the beam missed. */
  readonly missed: number;
}

/** On a day that is so many after the last marks: with the same chance below `most` as above `least`, mm. */
export interface Band {
  readonly days: number;
  readonly on: string;
  readonly least: number;
  readonly most: number;
}

/** mm, with its standard uncertainty. */
export interface Amount {
  readonly value: number;
  readonly u: number;
}

/** The machine from the tube to the last element, its carriages at one place, and the beam in it. Places mm, machine axes, from the tube's exit. */
export interface PathFigure {
  readonly kind: 'path';
  readonly machine: string;
  readonly units: Units;
  /** `gantry far from M1 (front), head near M2 (left)`; empty where nothing rides. */
  readonly place: string;
  /** Whether the advised step moves the beam; `then` and `thenMet` are after it. */
  readonly isMoved: boolean;
  /** Whether clearances count from the beam's edge (1/e²); where its width is not known they count from its middle. */
  readonly isWidthKnown: boolean;
  /** `fires` is a unit vector, `off` how far from the exit's middle the beam leaves it. */
  readonly tube: { readonly fires: Displacement; readonly off: Displacement };
  readonly carriages: readonly PathCarriage[];
  readonly parts: readonly PathPart[];
}

export interface PathCarriage {
  readonly element: string;
  readonly rides: string;
  /** Where it stands, and where it can: mm of the leg before it. */
  readonly leg: number;
  readonly shortest: number;
  readonly longest: number;
  /** Where its element's middle is at either end, the other carriages as they stand. */
  readonly ends: readonly [nearest: Displacement, farthest: Displacement];
}

export interface PathPart {
  readonly name: string;
  readonly kind: ElementKind;
  /** Its middle, and two unit vectors across its face. */
  readonly at: Displacement;
  readonly face: readonly [Displacement, Displacement];
  /** Diameter of its hole, mm. */
  readonly aperture: number;
  readonly frame: StationReport['frame'];
  /** Marks on it hold, and show all that its limits need. */
  readonly isMeasured: boolean;
  /** The mark that a tape here would show, mm; absent where the beam does not come. */
  readonly mark?: Axes;
  readonly then?: Axes;
  /** Where on its face the beam comes, from its middle. */
  readonly met?: Displacement;
  readonly thenMet?: Displacement;
  readonly clearance: PathClearance;
}

/** From the beam to the hole's edge, mm, at the worst place of all other carriages; negative where light is cut off. */
export interface PathClearance {
  /** The last carriage that moves the beam here; absent where none does, and there is one point. */
  readonly rides?: string;
  /** By its leg, mm, the nearest first. */
  readonly points: readonly { readonly leg: number; readonly now?: number; readonly then?: number }[];
}
