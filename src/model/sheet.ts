/** What the panel shows of a workbook at one time: a station's target, and what can be done there. */
import type { Verdict } from './evaluation.ts';
import type { PathFigure, RoundsFigure, ScrewsFigure, TargetFigure, TextPlace } from './figures.ts';

/** A trial on paper: turns of one screw, positive = in. */
export interface TriedTurn {
  readonly part: string;
  readonly screw: string;
  readonly turns: number;
}

export interface SheetAsked {
  /** The one that the next step is about where it is left out or there is no such. */
  readonly station?: string | undefined;
  /** From 1; the last where it is left out. */
  readonly round?: number | undefined;
  /** Where the marks would come after these, instead of after the advised step. */
  readonly turns?: readonly TriedTurn[] | undefined;
  /** Where the carriages of the drawn path stand, mm of the leg before the element that rides; the farthest where it is left out. */
  readonly legs?: Readonly<Record<string, number>> | undefined;
  /** Whether somebody looks at what drifted between visits: a forecast takes a tenth of a second. */
  readonly visits?: boolean | undefined;
}

export interface Sheet {
  readonly verdict: Verdict;
  /** `next: M1 B in 1/4; shoot M2 near and far` */
  readonly brief: string;
  /** In sentences, where there is more to say of it. */
  readonly why?: string;
  /** Whether the advised step can be written down. */
  readonly canAdd: boolean;
  readonly stations: readonly { readonly name: string; readonly words: string }[];
  readonly figure: TargetFigure;
  /** Marks that can be placed: those of the last cell about this station, blank ones among them; only these where something has moved since. */
  readonly slots: readonly Slot[];
  /** mm: what marks are read to. */
  readonly resolution: number;
  /** Screws of the mirrors before the station, the nearest mirror first. */
  readonly screws: readonly { readonly part: string; readonly screw: string }[];
  /** Of each mirror with something to turn, else of the nearest before the station. */
  readonly mounts: readonly ScrewsFigure[];
  /** The cell that says the tried turns, where some were asked for. */
  readonly triedCell?: string;
  /** How the station's marks went so far, where it was shot more than once. */
  readonly rounds?: RoundsFigure;
  readonly path?: PathFigure;
  /** In sentences: how wide the beam is here, what is lost, at the lens the spot. */
  readonly light: readonly string[];
  /** Whether there was a visit before, and where that was asked for, in sentences: what drifted since, and where that leads. */
  readonly hasVisits: boolean;
  readonly drift?: readonly string[];
}

export interface Slot extends TextPlace {
  /** `far, M2 far` */
  readonly label: string;
  readonly right?: number;
  readonly up?: number;
}

/** What stands below a cell of a notebook. */
export interface CellSheet {
  /** Markdown-free, a sentence or two: what the cell means, or what to do next. */
  readonly says: string;
  readonly figure?: TargetFigure;
  readonly mounts?: readonly ScrewsFigure[];
}

/** The kind of output that our renderer draws. */
export const CELL_SHEET = 'application/vnd.alignbook.sheet+json';
