/**
 * What is shown below a cell of a notebook: what it led to, without a sentence of the cell itself. Texts are plain, with
 * their units.
 */
import type { ShownState } from './evaluation.ts';
import type { PathFigure, ScrewsFigure, TargetFigure } from './figures.ts';

/** The view below a cell, by the kind of the cell. */
export type CellView = MarksView | AdjustView | CareView | MachineView | UnreadView;

/** Below marks: their tape as it was then, the verdict on them, and the requirements. */
export interface MarksView {
  readonly kind: 'marks';
  readonly figure: TargetFigure;
  readonly state: ShownState;
  /** The state in a word or two, and what belongs to it: the probability, or the distance from the prediction. */
  readonly word: string;
  readonly detail?: string;
  readonly requirements: readonly RequirementRow[];
  readonly slope?: { readonly name: string; readonly words: string };
}

/** One limit: `centre, far (front)`, `3.9 ± 0.2`, `2.5 mm`. */
export interface RequirementRow {
  readonly name: string;
  /** Absent if nothing valid was read. */
  readonly value?: string;
  readonly limit: string;
  /** No reading gives the value. */
  readonly isPredicted: boolean;
}

/** Below an adjustment: the turned screws, and the marks predicted and shot after it. */
export interface AdjustView {
  readonly kind: 'adjust';
  readonly mount?: ScrewsFigure;
  /** The station whose marks show the effect. */
  readonly station?: string;
  readonly marks: readonly OutcomeRow[];
  /** Turns of each screw of the part since the visit began: `A out 1/4, B in 1/8, C 0`. */
  readonly net?: string;
  /** What the marks say about the prediction, or why there is none. */
  readonly remark?: string;
}

/** The mark at one place: `far (front)`, `0.2 left 0.9 up`, `2.5 left 7.5 down`, `8.7 mm`. */
export interface OutcomeRow {
  readonly place: string;
  readonly predicted?: string;
  readonly came?: string;
  readonly offBy?: string;
  /** The distance is more than chance explains. */
  readonly isFar: boolean;
}

/** Below care: what it did to the marks, the last visits to the part, and the next due date. */
export interface CareView {
  readonly kind: 'care';
  readonly effect: string;
  /** The oldest first, this one last. */
  readonly visits: readonly { readonly found: string; readonly isClean: boolean; readonly date?: string }[];
  /** `next by 2026-06-07`, or why there is no date; absent without an interval. */
  readonly due?: string;
}

/** Below a machine: its beam path, as the log has it now. */
export interface MachineView {
  readonly kind: 'machine';
  readonly figure: PathFigure;
}

/** Below a cell with errors, of a kind that has a view: its height is kept, so that nothing moves while it is typed. */
export interface UnreadView {
  readonly kind: 'unread';
}
