/**
 * The content of one cell, resolved against the machine in force: names exist, lengths are mm, angles rad, turns in
 * turns (positive = in), and a mark's `right` and `up` are the viewer's, looking along the beam at the burnt side of
 * the tape (up = rear on a vertical leg).
 */
import type { Displacement } from './quantity.ts';
import type { Kind } from './kinds.ts';
import type { Machine, Pulse } from './machine.ts';
import type { Spans } from './span.ts';
import type { Path } from './path.ts';

/** What a cell of any kind may contain. */
export interface Aside {
  /** As written, ISO 8601. */
  readonly date?: string;
  readonly by?: string;
  readonly note?: string;
  readonly hours?: Counter;
  readonly photos?: readonly Photo[];
  /** Corrections of this cell, the oldest first; the cell contains the corrected values. */
  readonly amended?: readonly Amendment[];
}

/** The machine's own hour counter. */
export interface Counter {
  readonly hours: number;
  /** The counter was replaced and began again with these hours. */
  readonly isNew?: true;
}

/** A photo by its path, with its hash if given. */
export interface Photo {
  /** Relative to the workbook, `/` between folders. */
  readonly file: string;
  /** SHA-256 of the picture, in lower-case hexadecimal digits. */
  readonly sha256?: string;
}

/** One correction of a cell. */
export interface Amendment {
  /** The changed keys with their former values; undefined if there was no such cell. */
  readonly was?: { readonly [key: string]: Written };
  /** As written, ISO 8601. */
  readonly date: string;
  readonly by: string;
  readonly reason: string;
}

/** The content of a cell, scalars as typed; null for an empty value. */
export type Written = string | null | readonly Written[] | { readonly [key: string]: Written };

interface Common extends Aside {
  readonly spans: Spans;
}

/** A machine cell. */
export interface MachineEntry extends Common {
  readonly kind: 'machine';
  readonly machine: Machine;
}

/** A limits cell. */
export interface LimitsEntry extends Common {
  readonly kind: 'limits';
  readonly limits: Limits;
}

/** Acceptance limits, and how marks are read. */
export interface Limits {
  readonly title: string;
  /** mm; `plumb` rad. */
  readonly stations: Readonly<Record<string, StationLimits>>;
  /** mm: the smallest step read, and the standard uncertainty of placing the tape. */
  readonly reading: { readonly resolution: number; readonly placing: number };
  /** 0 … 1 */
  readonly confidence: number;
  /** Codes of findings that the workshop turned off, with the reason. */
  readonly rules: Readonly<Record<string, { readonly off: string }>>;
}

/** The limits of one station; an absent one does not apply. */
export interface StationLimits {
  readonly centre?: number;
  readonly spread?: number;
  readonly plumb?: number;
}

/** A session cell, which opens a visit. */
export interface SessionEntry extends Common {
  readonly kind: 'session';
  readonly title: string;
  readonly reason?: string;
}

/** A marks cell: the shots at one station. */
export interface MarksEntry extends Common {
  readonly kind: 'marks';
  readonly station: string;
  readonly shots: readonly Shot[];
  /** Some of its shots could not be read: the earlier readings at this station become stale. */
  readonly incomplete?: true;
  readonly tape?: 'fresh' | 'reused';
  readonly pulse?: Pulse;
}

/** One place of the carriages: one piece of tape with one or more marks. */
export interface Shot {
  /** A stop's name, `here` where the station has one leg, or the leg in mm. */
  readonly at: string | number;
  /** The leg of every element with stops, this station's own included, mm. */
  readonly carriages: Readonly<Record<string, number>>;
  /** The stops or legs of the other carriages, as the user wrote them. */
  readonly with: Readonly<Record<string, string | number>>;
  /** How far below the lens station the tape is placed, mm; 0 is the station's own tape. */
  readonly height: number;
  readonly marks: readonly Mark[];
  /** Key into `spans`. */
  readonly path: Path;
}

/** A mark in the viewer's frame, mm; or `none`: the beam missed the tape. */
export type Mark = MarkForm &
  (
    | {
        /** A coordinate that was not read is absent, which is not zero. */
        readonly right?: number;
        readonly up?: number;
        /** Standard uncertainty of a coordinate, placing included, if the cell gives one. */
        readonly u?: { readonly right?: number; readonly up?: number };
        readonly none?: never;
      }
    | { readonly none: true; readonly right?: never; readonly up?: never; readonly u?: never }
  );

/** The diameter of a burn, mm, and its shape. */
interface MarkForm {
  readonly size?: number;
  readonly shape?: 'round' | 'oval' | 'crescent' | 'double';
}

/** An adjust cell: moves of one part. */
export interface AdjustEntry extends Common {
  readonly kind: 'adjust';
  /** An element's name, or `tube`. */
  readonly part: string;
  /** Screw → turns, positive = in; all screws of one cell are turned together. */
  readonly turns: Readonly<Record<string, number>>;
  readonly shift?: { readonly by: Displacement; readonly end?: 'exit' | 'tail' };
  /** An action: the nuts were loosened before the turns and shifts of the cell, or tightened after them. */
  readonly lock?: 'loose' | 'tight';
  /** How the nuts were before anything in the cell was done: nothing moved. */
  readonly foundLock?: 'loose' | 'tight';
  /** Screw → the direction in which it has reached its end. */
  readonly noFurther?: Readonly<Record<string, 'in' | 'out'>>;
}

/** The condition of a part as found. */
export type Condition = 'clean' | 'dusty' | 'hazy' | 'spotted' | 'scratched' | 'burnt' | 'pitted' | 'cracked' | 'loose';
/** What was done to a part. */
export type CareAction = 'inspected' | 'cleaned in place' | 'removed and cleaned' | 'tightened' | 'replaced';

/** A care cell. */
export interface CareEntry extends Common {
  readonly kind: 'care';
  readonly part: string;
  readonly found?: Condition;
  readonly did?: CareAction;
  readonly with?: string;
  readonly refit?: Readonly<Partial<Record<'flat side' | 'ring' | 'witness' | 'hose', string>>>;
}

/** A power cell: readings at one station. */
export interface PowerEntry extends Common {
  readonly kind: 'power';
  readonly station: string;
  /** W */
  readonly readings: readonly number[];
  /** The carriages, as the user wrote them: the element that rides → its stop, or its leg in mm. */
  readonly with?: Readonly<Record<string, string | number>>;
}

/** A measurement of another quantity: values and limits have one dimension. */
export interface MeasureEntry extends Common {
  readonly kind: 'measure';
  readonly name: string;
  /** `length`, `temperature`, …, as in `WorkResult`. */
  readonly dimension: string;
  readonly values: readonly MeasuredValue[];
  readonly limit?: MeasureLimit;
  /** The instrument. */
  readonly with?: string;
}

/** In mm, rad, W, s, degrees Celsius, … */
export interface MeasuredValue {
  /** Absent if the measurement has only one place. */
  readonly place?: string;
  /** The mean of repeated values. */
  readonly value: number;
  /** Standard uncertainty, where the cell gives one. */
  readonly u?: number;
  readonly repeats: number;
  /** Key into `spans`. */
  readonly path: Path;
}

/** Both ends are allowed. */
export interface MeasureLimit {
  readonly least: number;
  readonly most: number;
}

/** An event cell. */
export interface EventEntry extends Common {
  readonly kind: 'event';
  readonly what: string;
}

/** A checks cell. */
export interface ChecksEntry extends Common {
  readonly kind: 'checks';
  readonly title: string;
  readonly done: readonly string[];
  readonly open: readonly string[];
}

/** A note cell; the note itself is one of the common values. */
export interface NoteEntry extends Common {
  readonly kind: 'note';
}

/** The result of a line of arithmetic. */
export interface WorkResult {
  readonly value: number;
  /** Standard uncertainty; absent where no input has one. */
  readonly u?: number;
  /**
   * Inputs have an uncertainty, but that of the result is unknown: its derivative is not finite here, or there are too
   * many inputs.
   */
  readonly unsure?: true;
  readonly kind: string;
}

/** A work cell: lines of arithmetic. */
export interface WorkEntry extends Common {
  readonly kind: 'work';
  readonly title: string;
  /** Name → its expression, as written. */
  readonly values: Readonly<Record<string, string>>;
  /** Name → its value in mm, rad, W and s; `kind` is `length`, `angle`, `number`, … Absent if it cannot be computed. */
  readonly results: Readonly<Record<string, WorkResult>>;
  /** Names whose values depend on the log's result for a station. */
  readonly later?: readonly string[];
}

/** A release cell: the machine is signed off or withdrawn. */
export interface ReleaseEntry extends Common {
  readonly kind: 'release';
  readonly to: 'in service' | 'withdrawn';
  /** A second person. */
  readonly witness?: string;
}

/** A cell with errors. What it may have moved is unknown: `of` and `part` give the extent, where they could be read. */
export interface UnreadEntry extends Common {
  readonly kind: 'unread';
  readonly of?: Kind;
  readonly part?: string;
  /** For a care cell: the condition of the part, if that could be read. */
  readonly found?: Condition;
}

/** The entry of a cell of any kind. */
export type Entry =
  | MachineEntry
  | LimitsEntry
  | SessionEntry
  | MarksEntry
  | AdjustEntry
  | CareEntry
  | PowerEntry
  | MeasureEntry
  | EventEntry
  | ChecksEntry
  | NoteEntry
  | WorkEntry
  | ReleaseEntry
  | UnreadEntry;

/** The entry of a cell of this kind; `never` for a kind without an entry, which then does not compile. */
export type EntryOf<K extends Entry['kind']> = Extract<Entry, { readonly kind: K }>;

/** An entry and the cell that contains it; a cell with a version-control conflict gives two. */
export interface LogEntry {
  readonly cell: number;
  readonly entry: Entry;
}
