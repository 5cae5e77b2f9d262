/**
 * What a figure needs to be drawn, as plain data: positions mm in the viewer's frame (looking along the beam, right =
 * beam × up), angles rad, turns positive = in. Who draws adds nothing to it and works nothing out.
 */
import type { Axes, Ellipse, StationReport, StationState } from './evaluation.ts';

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
  /** `outside, 3 % sure to be within` */
  readonly words: string;
  /** Diameter of the hole that the tape covers, mm. */
  readonly aperture: number;
  /** mm: the greatest distance from the middle that is allowed. */
  readonly limit?: number;
  /** Of the beam on this tape where its mark is farthest off, 1/e² diameter, mm; absent where it is not known. */
  readonly beam?: number;
  /** Every place of the carriages that was shot or is asked for; marks name theirs by its index. */
  readonly places: readonly TargetPlace[];
  /** How many rounds the session has here, and which one is shown, from 1; 0 where nothing was shot. */
  readonly rounds: number;
  readonly round: number;
  /** The oldest first. */
  readonly marks: readonly TargetMark[];
  /** Tapes that the beam missed, in the round that is shown. */
  readonly missed: readonly (TextPlace & { readonly place: number })[];
  /** Where the next marks will come. */
  readonly expected: readonly TargetExpected[];
}

export interface TargetPlace {
  /** In the words of a cell: `near`, `far, M2 far`; empty where no carriage moves the tape. */
  readonly brief: string;
  /** `gantry far, head near` */
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
  /** What is advised, or tried; 0 is none. Positive = in = clockwise. */
  readonly turns: number;
  /** What an eighth of a turn in does to the mark, mm; absent where it is not known. */
  readonly moves?: Axes;
}
