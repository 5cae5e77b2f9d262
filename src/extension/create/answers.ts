/**
 * The answers that a new workbook needs: what cannot be guessed, and what would reverse a sign if it were guessed
 * wrong.
 */
import type { BeamPath } from './beam-paths.ts';

export type Units = 'mm' | 'in';

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
}

export interface Travel {
  readonly width: number;
  readonly depth: number;
}
