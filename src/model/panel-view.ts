/** The view model of the panel: a station's target, and what can be done there. */
import type { Verdict } from './evaluation.ts';
import type { PathFigure, RoundsFigure, ScrewsFigure, TargetFigure, TextPlace } from './figures.ts';

/** A trial that is not logged: turns of one screw, positive = in. */
export interface TriedTurn {
  readonly part: string;
  readonly screw: string;
  readonly turns: number;
}

/** What the panel shows, as the user chose it. */
export interface PanelOptions {
  /** Absent or unknown: the station of the next step. */
  readonly station?: string | undefined;
  /** From 1; absent: the last. */
  readonly round?: number | undefined;
  /** Predict the marks after these turns instead of after the advised step. */
  readonly turns?: readonly TriedTurn[] | undefined;
  /** Position of the carriages in the drawn path, mm of the leg before the element that rides; absent: the farthest. */
  readonly legs?: Readonly<Record<string, number>> | undefined;
  /** Whether the drift between visits is shown: a forecast takes a tenth of a second. */
  readonly visits?: boolean | undefined;
}

/** Everything that the panel shows. */
export interface PanelView {
  readonly verdict: Verdict;
  /** `next: M1 B in 1/4; shoot M2 near and far` */
  readonly brief: string;
  /** In sentences, if there is more to state. */
  readonly why?: string;
  /** Whether the advised step can be logged. */
  readonly canAdd: boolean;
  readonly stations: readonly { readonly name: string; readonly words: string }[];
  readonly figure: TargetFigure;
  /**
   * Marks that can be placed: those of the last cell about this station, blank ones included; only the blank ones if
   * something has moved since.
   */
  readonly slots: readonly Slot[];
  /** mm: the resolution of readings. */
  readonly resolution: number;
  /** Screws of the mirrors before the station, the nearest mirror first. */
  readonly screws: readonly { readonly part: string; readonly screw: string }[];
  /** The mounts with something to turn, else the nearest one before the station. */
  readonly mounts: readonly ScrewsFigure[];
  /** The cell that logs the tried turns, if any. */
  readonly triedCell?: string;
  /** The station's rounds, if it was shot more than once. */
  readonly rounds?: RoundsFigure;
  readonly path?: PathFigure;
  /** In sentences: the beam's diameter here, the clipping loss, and at the lens the spot. */
  readonly light: readonly string[];
  /** Whether there was an earlier visit; and if requested, the drift since and the forecast in sentences. */
  readonly hasVisits: boolean;
  readonly drift?: readonly string[];
}

/** A mark that can be placed. */
export interface Slot extends TextPlace {
  /** `far, M2 far` */
  readonly label: string;
  readonly right?: number;
  readonly up?: number;
}

/** What is shown below a cell of a notebook. */
export interface CellView {
  /** A sentence or two without Markdown: the result of the cell, or what to do next. */
  readonly text: string;
  readonly figure?: TargetFigure;
  readonly mounts?: readonly ScrewsFigure[];
}

/** Whether an output that the editor kept has the shape of `CellView`. */
export function isCellView(value: unknown): value is CellView {
  return typeof value === 'object' && value !== null && 'text' in value && typeof value.text === 'string';
}

/** The MIME type of the output that our renderer draws. */
export const CELL_VIEW = 'application/vnd.alignbook.sheet+json';
