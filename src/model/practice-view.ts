/** What the panel shows of a practice machine. Positions mm, viewer's frame. */
import type { BurnFigure, TextPlace } from './figures.ts';

/** The cell that asks for advice on a practice machine. */
export const ASK_CELL = 'note: Asked for advice.\n';

/** The state of practice. */
export interface PracticeView {
  /** `simulated machine · level 2, near and far · seed 12 · can’t be released` */
  readonly words: string;
  /** How often advice was asked for, and whether it is closed now. */
  readonly asks: number;
  readonly isClosed: boolean;
  /** The blanks that can be fired for. */
  readonly blanks: readonly TextPlace[];
  /** The tape that was fired, and its place in the text. */
  readonly tape?: BurnFigure & { readonly of: TextPlace };
  /** What was expected of the tape, in words. */
  readonly expected?: string;
  /** The last marks that were logged, beside the truth. */
  readonly compared: readonly PracticeComparison[];
  /** How far the last readings were off, the oldest first: `0.6`. */
  readonly misread: readonly string[];
  /** What the last turn did, from the marks alone. */
  readonly taught?: string;
  /** The station that can be shot, and the cell with its blanks. */
  readonly shoot?: { readonly station: string; readonly cell: string };
}

/** One logged mark: what was expected, read, and where it came, in words. */
export interface PracticeComparison {
  /** `M2, gantry far from M1 (front)` */
  readonly name: string;
  readonly expected?: string;
  readonly read: string;
  readonly came: string;
  /** `0.2 mm` */
  readonly misread: string;
  readonly surprise?: string;
}

/** The closing sheet in words and points. */
export interface ClosingSheet {
  readonly level: number;
  readonly seed: number;
  /** `Level 2 done: within, truly`, and what belongs to it. */
  readonly title: string;
  readonly why: string;
  readonly isTruly: boolean;
  /** The true utilisation of the worst limit by tapes shot: 1 is just within. */
  readonly yours: readonly ClosingPoint[];
  readonly shortest: readonly ClosingPoint[];
  /** The move that cost most, at a point of the learner's way. */
  readonly costly?: { readonly say: string; readonly tapes: number };
  readonly rows: readonly { readonly name: string; readonly yours: string; readonly shortest: string }[];
  /** Two sentences to take along. */
  readonly take: readonly string[];
}

/** A point of a way. */
export interface ClosingPoint {
  readonly tapes: number;
  readonly worst: number;
}
