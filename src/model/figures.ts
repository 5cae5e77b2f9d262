/**
 * The data of a figure: positions mm in the viewer's frame (looking along the beam, right = beam × up), angles rad,
 * turns positive = in; `units` are those in which lengths are shown. Drawing adds and computes nothing.
 */
import type { Ellipse, StationReport, StationState } from './evaluation.ts';
import type { Axes } from './axes.ts';
import type { ElementKind, Units } from './machine.ts';
import type { Displacement } from './quantity.ts';
import type { Path } from './path.ts';

/** Any figure. */
export type Figure = TargetFigure | ScrewsFigure | RoundsFigure | PathFigure | VisitsFigure | BurnFigure;

/** A place in the text: the cell, and the key into its entry's `spans`. */
export interface TextPlace {
  readonly cell: number;
  readonly path: Path;
}

/** A station's tape. */
export interface TargetFigure {
  readonly kind: 'target';
  readonly station: string;
  readonly frame: StationReport['frame'];
  readonly state: StationState;
  /** `out of limits (probability within 3 %)` */
  readonly words: string;
  /** Diameter of the aperture that the tape covers, mm. */
  readonly aperture: number;
  /** mm: the maximum allowed distance from the centre. */
  readonly limit?: number;
  /**
   * 1/e² diameter of the beam on this tape, at the place with the mark farthest from the centre, mm; absent if unknown.
   */
  readonly beam?: number;
  /** Every place of the carriages that was shot or is requested; marks refer to it by index. */
  readonly places: readonly TargetPlace[];
  /**
   * The number of rounds of the session, the first one that can be shown, and the one shown, from 1; 0 if nothing was
   * shot.
   */
  readonly rounds: number;
  readonly first: number;
  readonly round: number;
  /** The oldest first. */
  readonly marks: readonly TargetMark[];
  /** Marks of the shown round with one coordinate: they lie somewhere on a line across the tape. */
  readonly halves: readonly TargetHalf[];
  /** Tapes that the beam missed, in the shown round. */
  readonly missed: readonly (TextPlace & { readonly place: number })[];
  /** The predicted next marks. */
  readonly expected: readonly TargetExpected[];
}

/** A place of the carriages, in words. */
export interface TargetPlace {
  /** In the words of a cell: `near (rear)`, `far (right), M2 far (front)`; empty if no carriage moves the tape. */
  readonly brief: string;
  /** `gantry far from M1 (front), head near M2 (left)` */
  readonly full: string;
  /** As it is named in a list: `gantry near`; `head far, gantry near`. */
  readonly name: string;
  /** The end of the machine, if one carriage alone moves the tape: `rear`. */
  readonly end?: string;
}

/** Whether a mark is valid now, was valid until something moved, or belongs to an earlier round. */
export type MarkAge = 'fresh' | 'stale' | 'earlier';

/** A mark with both coordinates, mm. */
export interface TargetMark extends TextPlace {
  readonly place: number;
  readonly round: number;
  readonly age: MarkAge;
  readonly right: number;
  readonly up: number;
  /** Standard uncertainty of either coordinate, mm. */
  readonly u: number;
}

/** A mark with one coordinate, mm. */
export interface TargetHalf extends TextPlace {
  readonly place: number;
  readonly age: Exclude<MarkAge, 'earlier'>;
  /** The coordinate that was read, and its distance from the centre, mm. */
  readonly read: keyof Axes;
  readonly value: number;
  readonly u: number;
}

/** A predicted mark, mm. */
export interface TargetExpected {
  readonly place: number;
  readonly right: number;
  readonly up: number;
  /** The 95 % ellipse. */
  readonly ellipse: Ellipse;
}

/**
 * The face of a mount as you face its screw heads: positions mm from the mirror's centre, right and up as seen there.
 */
export interface ScrewsFigure {
  readonly kind: 'screws';
  readonly part: string;
  readonly heads: 'behind' | 'beam side';
  /** Of the thread: in is clockwise, or anticlockwise with a left-hand thread. */
  readonly hand: 'right' | 'left';
  /** Rim diameter, mm. */
  readonly knob?: number;
  readonly pivot?: Axes;
  readonly screws: readonly DrawnScrew[];
  /** The mark that `moves` refers to. */
  readonly mark: { readonly station: string; readonly place: string; readonly frame: StationReport['frame'] };
}

/** A screw of a drawn mount. */
export interface DrawnScrew {
  readonly name: string;
  /** Absent if the workbook does not give it. */
  readonly place?: Axes;
  /** The advised or tried turns; 0 is none. Positive = in. */
  readonly turns: number;
  /** What an eighth of a turn in does to the mark, mm; absent if unknown. */
  readonly moves?: Axes;
}

/**
 * The distances of a station's marks from the centre, round by round, in this session and those before; the oldest
 * first.
 */
export interface RoundsFigure {
  readonly kind: 'rounds';
  readonly station: string;
  readonly units: Units;
  /** mm */
  readonly limits: { readonly centre?: number; readonly spread?: number };
  readonly sessions: readonly { readonly title: string; readonly date?: string }[];
  readonly rounds: readonly RoundPoint[];
}

/** One round when its last mark was read; `cell` and `path` are those of its first mark. */
export interface RoundPoint extends TextPlace {
  /** Index into `sessions`. */
  readonly session: number;
  /** In its session, from 1. */
  readonly round: number;
  readonly state: StationState;
  /** The maximum distance of a mark from the centre; absent if a tape was missed. */
  readonly centre?: Amount;
  /** The maximum distance between marks at two places; absent if there is only one place, or a tape was missed. */
  readonly spread?: Amount;
  /** Tapes that the beam missed. */
  readonly missed: number;
}

/** One station over the visits of a log: as found, as left, and the forecast. */
export interface VisitsFigure {
  readonly kind: 'visits';
  readonly station: string;
  readonly units: Units;
  /** mm, at the end of the log. */
  readonly limits: { readonly centre?: number; readonly spread?: number };
  /** The visits in which it was shot, the oldest first. */
  readonly visits: readonly VisitPoint[];
  /**
   * The predicted maximum distance of its marks from the centre if nothing is moved. The last is the day on which the
   * probability of being within falls below `confidence`, if `unsure` is given.
   */
  readonly ahead: readonly Band[];
  /** The probability of either edge, 0 … 1, and the first day on which the probability of being within is less. */
  readonly confidence?: number;
  readonly unsure?: string;
  /** The same in sentences, or why there is no forecast. */
  readonly summary?: string;
}

/** One visit of a drawn station. */
export interface VisitPoint {
  /** From 1, in the order of the file. */
  readonly session: number;
  readonly title?: string;
  /** Its first marks in the visit, if others follow; absent: `left` is as found, too. */
  readonly found?: VisitMarks;
  readonly left: VisitMarks;
  /** Index of the visit whose last marks drifted to the first of this one, with no move in between. */
  readonly from?: number;
}

/** The marks of a round, as distances. */
export interface VisitMarks {
  /** A calendar day, where the log has one. */
  readonly date?: string;
  /** The maximum distance from the centre, and between two marks. */
  readonly centre?: Amount;
  readonly spread?: Amount;
  /** Tapes that the beam missed. */
  readonly missed: number;
}

/**
 * The distance predicted for a day, `days` after the last marks, mm: below `most` and above `least` with the same
 * probability.
 */
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

/**
 * The machine from the tube to the last element, with its carriages at one place, and the beam. Positions mm, machine
 * axes, from the tube's exit.
 */
export interface PathFigure {
  readonly kind: 'path';
  readonly machine: string;
  readonly units: Units;
  /** `gantry far from M1 (front), head near M2 (left)`; empty without carriages. */
  readonly place: string;
  /** Whether the advised step moves the beam; `then` and `thenMet` are after it. */
  readonly isMoved: boolean;
  /** Whether clearances are measured from the beam's edge (1/e²), or from its centre, if its width is unknown. */
  readonly isWidthKnown: boolean;
  /** `fires` is a unit vector, `off` the offset of the beam from the exit's centre. */
  readonly tube: { readonly fires: Displacement; readonly off: Displacement };
  readonly carriages: readonly PathCarriage[];
  readonly parts: readonly PathPart[];
}

/** A carriage in the drawn path. */
export interface PathCarriage {
  readonly element: string;
  readonly rides: string;
  /** Its position and its travel: mm of the leg before it. */
  readonly leg: number;
  readonly shortest: number;
  readonly longest: number;
  /** The centre of its element at either end, the other carriages as they are. */
  readonly ends: readonly [nearest: Displacement, farthest: Displacement];
}

/** An element of the drawn path. */
export interface PathPart {
  readonly name: string;
  readonly kind: ElementKind;
  /** Its centre, and two unit vectors across its face. */
  readonly at: Displacement;
  readonly face: readonly [Displacement, Displacement];
  /** Diameter of its aperture, mm. */
  readonly aperture: number;
  readonly frame: StationReport['frame'];
  /** Its marks are fresh, and complete for its limits. */
  readonly isMeasured: boolean;
  /** The mark that a tape here would show, mm; absent if the beam does not arrive. */
  readonly mark?: Axes;
  readonly then?: Axes;
  /** Where the beam meets its face, from its centre. */
  readonly met?: Displacement;
  readonly thenMet?: Displacement;
  readonly clearance: PathClearance;
}

/**
 * From the beam to the edge of the aperture, mm, at the worst place of all other carriages; negative where it is
 * clipped.
 */
export interface PathClearance {
  /** The last carriage that moves the beam here; absent if none does: then there is one point. */
  readonly rides?: string;
  /** By its leg, mm, the nearest first. */
  readonly points: readonly { readonly leg: number; readonly now?: number; readonly then?: number }[];
}

/** The burnt tape of a simulated machine, to be read by eye: no limit, no grid, no sign. mm, viewer's frame. */
export interface BurnFigure {
  readonly kind: 'burn';
  readonly station: string;
  /** `gantry far from M1 (front)`; empty if no carriage moves the tape. */
  readonly place: string;
  readonly frame: StationReport['frame'];
  /** Diameter of the aperture whose ring is pressed through; absent for a tape on the bed. */
  readonly aperture?: number;
  /** mm from the centre to the edge of the tape. */
  readonly reach: number;
  /** Outlines from the outermost to the middle; absent if the beam missed the tape. */
  readonly burnt?: {
    readonly smoke: readonly (readonly Axes[])[];
    readonly scorch: readonly Axes[];
    readonly brown: readonly Axes[];
    readonly core: readonly Axes[];
  };
  /** Once the mark is logged: what was expected and read, and where the middle of the burn is. */
  readonly compared?: {
    readonly expected?: Axes;
    readonly read: Axes;
    readonly came: Axes;
    /** Of the place that was read: `F` for far. */
    readonly letter: string;
  };
}

/** A measured value with its standard uncertainty against a limit, in `unit`. */
export interface BellFigure {
  /** `Spread of M3` */
  readonly name: string;
  readonly value: number;
  readonly u: number;
  readonly max: number;
  /** That the value is within the limit. */
  readonly probability: number;
  /** `mm`, `in` or `mrad`, and the decimals that are shown. */
  readonly unit: string;
  readonly decimals: number;
}
