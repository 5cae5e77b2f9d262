/**
 * The answers that a new workbook needs: what cannot be guessed, and what would reverse a sign or hide a danger if it
 * were guessed wrong.
 */
import type { Units } from '../model/index.ts';
import type { BeamPath } from './beam-paths.ts';

export interface Answers {
  /** Name of the machine, also used for the workbook's file. */
  readonly name: string;
  /** The name as it is spoken, where the format does not take it. */
  readonly title?: string | undefined;
  readonly beamPath: BeamPath;
  readonly units: Units;
  /** Travel of the head and the gantry, in `units`. */
  readonly travel: Travel;
  /** Number of screws that tilt a mirror. */
  readonly screws: 2 | 3;
  /** The corner of a plate with three screws that has none, as you face the screw heads; absent: not known. */
  readonly emptyCorner?: Corner | undefined;
  /** Whether the screws have lock nuts; absent: not known. */
  readonly locks?: 'nut' | 'none' | undefined;
  /** In `units`; `unknown`: there is a nozzle that nobody has measured. */
  readonly nozzle: Nozzle | 'none' | 'unknown';
  /** The largest tilt of the beam below the lens, mrad; absent: no limit. */
  readonly plumb?: number | undefined;
}

export interface Travel {
  readonly width: number;
  readonly depth: number;
}

export interface Nozzle {
  /** Diameter. */
  readonly aperture: number;
  /** From the lens to the tip. */
  readonly leg: number;
}

/** The corners of a plate. */
export const CORNERS = ['upper left', 'upper right', 'lower left', 'lower right'] as const;

export type Corner = (typeof CORNERS)[number];
