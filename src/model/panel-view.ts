/** The view model of the panel: a station's target, and what can be done there. */
import type { Axes } from './axes.ts';
import type { ShownState, Verdict } from './evaluation.ts';
import type { PracticeView } from './practice-view.ts';
import type {
  BellFigure,
  PathFigure,
  RoundsFigure,
  ScrewsFigure,
  TargetFigure,
  TargetPlace,
  TextPlace,
} from './figures.ts';

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
  /** Predict the marks after these turns, or after none, instead of after the advised step. */
  readonly turns?: readonly TriedTurn[] | undefined;
  /** Position of the carriages in the drawn path, mm of the leg before the element that rides; absent: the farthest. */
  readonly legs?: Readonly<Record<string, number>> | undefined;
  /** Whether the drift between visits is shown: a forecast takes a tenth of a second. */
  readonly visits?: boolean | undefined;
  /** The blank of a practice machine that was fired for. */
  readonly fired?: TextPlace | undefined;
}

/** Everything that the panel shows. */
export interface PanelView {
  readonly verdict: Verdict;
  readonly now: PanelNow;
  readonly stations: readonly PanelStation[];
  readonly figure: TargetFigure;
  readonly shots: readonly PanelShot[];
  /** Centre, spread and plumb against their limits, then the slope. */
  readonly measured: readonly PanelMeasure[];
  /** mm: the resolution of readings. */
  readonly resolution: number;
  /** Screws of the mirrors before the station, the nearest mirror first. */
  readonly screws: readonly { readonly part: string; readonly screw: string }[];
  /** The turns of those screws that the mounts show: tried, else advised. */
  readonly turns: readonly TriedTurn[];
  readonly advised: readonly TriedTurn[];
  /** What the marks fulfil now, and what they are predicted to fulfil after these turns. */
  readonly outlook: readonly PanelOutlook[];
  /** The mounts with something to turn, else the nearest one before the station. */
  readonly mounts: readonly ScrewsFigure[];
  /** The cell that logs the tried turns, if they are not the advised ones. */
  readonly triedCell?: string;
  /** The station's rounds, if it was shot more than once. */
  readonly rounds?: RoundsFigure;
  /** Each limit of each station as found and as left in this visit, if something was shot twice. */
  readonly visit: readonly PanelChange[];
  readonly path?: PathFigure;
  /** In sentences: the beam's diameter here, the clipping loss, and at the lens the spot. */
  readonly light: readonly string[];
  /** Whether there was an earlier visit; and if requested, the drift since and the forecast in sentences. */
  readonly hasVisits: boolean;
  readonly drift?: readonly string[];
  /** Of a simulated machine. */
  readonly practice?: PracticeView;
}

/** What to do now. */
export interface PanelNow {
  /** In one sentence, as every view has it: `M1: A out 1/4, B in 1/8`. */
  readonly sentence: string;
  /** What belongs to it, the most important first; each is a sentence. */
  readonly then: readonly string[];
  /** What the hands do, or else the state of the station in question. */
  readonly sign:
    | { readonly act: 'check' | 'read' | 'shoot' }
    | { readonly act: 'turn'; readonly screw: string; readonly turns: number; readonly hand: 'right' | 'left' }
    | { readonly act: 'state'; readonly state: ShownState };
  /** What the button logs; absent if there is nothing to log. */
  readonly log?: 'checks' | 'turn' | 'step' | 'replacement' | 'release';
  /** Near an even chance: two ways to choose from, each with a button of its own. */
  readonly ways?: readonly [PanelWay, PanelWay];
  /** The requirement that decides between them. */
  readonly doubt?: BellFigure;
  /** The steps up to the next shot in full, and the cautions. */
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
  /** The checks to tick, and the cell that logs them: its head, then one line for each. */
  readonly checks?: { readonly items: readonly string[]; readonly head: string; readonly lines: readonly string[] };
}

/** Shooting again (`again`), or turning at once. */
export interface PanelWay {
  readonly kind: 'again' | 'turn';
  /** `over 16` */
  readonly tapes: string;
  /** Number of screws turned. */
  readonly turns: number;
  /** What comes of it. */
  readonly outcome: string;
}

/** A station on the drawn path. */
export interface PanelStation {
  readonly name: string;
  readonly state: ShownState;
  /** `not shot` */
  readonly words: string;
  /** What to do there now. */
  readonly act?: 'turn' | 'shoot' | 'read' | 'choose';
  /** Its marks in fractions of its limit, or of the aperture's radius without one. */
  readonly marks: readonly (Axes & { readonly place: number; readonly isStale: boolean })[];
}

/** A place of the carriages, with what was read there. */
export interface PanelShot {
  /** Index into the figure's places. */
  readonly place: number;
  /** `gantry near`, `head far, gantry near`, `one place only`; `gantry near (2)` of several marks. */
  readonly name: string;
  readonly end?: string;
  /** One line for each axis: `2.5 right`, and the machine's word for it, `machine left`. Else one line: `not shot`. */
  readonly lines: readonly { readonly words: string; readonly machine?: string }[];
  readonly state: 'read' | 'stale' | 'open';
  /** Where the mark stands in the text. */
  readonly mark?: TextPlace;
  /** Where a mark that is placed is written. In a cell beyond the last one: the advised step is logged with it. */
  readonly slot?: TextPlace;
  /** The slot's value, mm. */
  readonly right?: number;
  readonly up?: number;
}

/** `centre 3.9 of 2.5 mm`, and whether the limit is met. */
export interface PanelMeasure {
  readonly words: string;
  readonly isLimit: boolean;
}

/** `centre`, `3.9 mm`, `1.3 of 2.5 mm` */
export interface PanelOutlook {
  readonly name: string;
  readonly now: string;
  readonly then: string;
}

/** One limit of one station in this visit, in fractions of the limit and in words: `3.9`, `0.7`, `2.5 mm`. */
export interface PanelChange {
  readonly name: string;
  readonly found: number;
  readonly left: number;
  readonly words: { readonly found: string; readonly left: string; readonly limit: string };
}

/** A mark that can be placed. */
export interface Slot extends TextPlace {
  /** `far, M2 far` */
  readonly label: string;
  readonly place: TargetPlace;
  /** From 1, of several marks at one place. */
  readonly number?: number;
  /** Nothing is written there. */
  readonly isBlank?: true;
  readonly right?: number;
  readonly up?: number;
}
