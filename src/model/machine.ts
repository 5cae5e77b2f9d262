/**
 * The machine as the workbook describes it. Lengths mm, angles rad, turns in turns; numbers without a unit are already
 * converted from the cell's `units`.
 */
import type { Direction, Quantity } from './quantity.ts';

/** The unit of lengths that have none, and in which lengths are shown. */
export type Units = 'mm' | 'in';

/** A machine. */
export interface Machine {
  readonly name: string;
  readonly title?: string;
  readonly units: Units;
  readonly source: Source;
  /** In the order in which the beam meets them. */
  readonly path: readonly PathElement[];
  readonly mounts: Readonly<Record<string, MountDescription>>;
  /** Values that replace the default priors, by name; mm, rad, turn or a ratio. */
  readonly priors: Readonly<Record<string, number>>;
  readonly care: Readonly<Record<string, CareInterval>>;
  readonly pulse?: Pulse;
  /** What distinguishes this machine from others of its type. */
  readonly asset?: Asset;
  /** A simulated machine, for practice. */
  readonly practice?: Simulation;
}

/** Texts, as written. */
export interface Asset {
  readonly number?: string;
  readonly serial?: string;
  readonly owner?: string;
  readonly site?: string;
}

/** The parameters of a simulated machine. */
export interface Simulation {
  /** Seed from which the machine is drawn. */
  readonly seed: number;
  /** Difficulty, from 1. */
  readonly level: number;
}

/** The tube. */
export interface Source {
  readonly fires: Direction;
  /** mm */
  readonly wavelength: number;
  /** W */
  readonly power?: Quantity;
  /** `diameter` at the exit, 1/e², mm; `divergence` full angle, rad; `M2` beam propagation ratio. */
  readonly beam?: { readonly diameter: Quantity; readonly divergence?: Quantity; readonly M2?: Quantity };
  /** Distance of the two holders of the tube, back from its exit, mm. */
  readonly holders?: { readonly exit: number; readonly tail: number };
}

/** The kinds of elements in the beam path. */
export type ElementKind = 'mirror' | 'lens' | 'station';

/** An element of the beam path. */
export interface PathElement {
  readonly name: string;
  /** A `mirror` reflects the beam, a `lens` has a focal length, a `station` is only an aperture. */
  readonly kind: ElementKind;
  /** mm from the element before (the tube's exit for the first) to the tape here; absent if it has stops. */
  readonly leg?: Quantity;
  /** The same at each named stop of the carriage that it rides. */
  readonly stops?: Readonly<Record<string, Quantity>>;
  readonly rides?: string;
  /** Diameter, mm. */
  readonly aperture: number;
  readonly sends?: Direction;
  /** Name of its mount. */
  readonly mount?: string;
  /** From the tape to the mirror's face along the beam, mm. */
  readonly inset: number;
  /** Machine directions in which its block can be moved, each both ways; absent: the default for its place. */
  readonly moves?: readonly Direction[];
  /** mm */
  readonly focal?: Quantity;
  readonly shape?: 'plano-convex' | 'meniscus' | 'biconvex';
  readonly material?: string;
}

/** A mount and its screws. */
export interface MountDescription {
  /**
   * The point where each screw's tip acts, mm from the mirror's centre, as you face the screw heads; empty: unknown.
   */
  readonly screws: Readonly<Record<string, { readonly right?: Quantity; readonly up?: Quantity }>>;
  /** A fixed third point, in the same coordinates. */
  readonly pivot?: { readonly right: Quantity; readonly up: Quantity };
  /** mm per turn; absent only if the screws have no places. */
  readonly pitch?: number;
  readonly thread?: string;
  /** Of the thread: a right-hand screw is turned in clockwise, a left-hand one anticlockwise. */
  readonly hand: 'right' | 'left';
  /** Whether the screws have lock nuts. */
  readonly locks: 'nut' | 'none';
  /** The direction in which turning in moves that corner of the mirror. */
  readonly in: 'toward beam' | 'away from beam';
  readonly heads: 'behind' | 'beam side';
  /** Rim diameter, mm. */
  readonly knob?: number;
  /** Relative standard uncertainty of the effect of a turn. */
  readonly doubt: number;
}

/** An interval on the calendar, or in hours of work. */
export type CareInterval = { readonly months: number } | { readonly days: number } | { readonly hours: number };

/** A test pulse. */
export interface Pulse {
  /** Ratio to full power, 0 … 1. */
  readonly power?: number;
  /** Seconds. */
  readonly time?: number;
}
