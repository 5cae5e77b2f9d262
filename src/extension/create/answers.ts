/** What is asked before a workbook is begun: what cannot be guessed, and what a wrong guess would make a wrong sign of. */
import type { BeamPath } from './beam-paths.ts';

export type Units = 'mm' | 'in';

export interface Answers {
  /** Of the machine; the workbook's file is called after it. */
  readonly name: string;
  readonly beamPath: BeamPath;
  readonly units: Units;
  /** How far the head and the gantry travel, in `units`. */
  readonly travel: Travel;
  /** How many screws tilt a mirror. */
  readonly screws: 2 | 3;
}

export interface Travel {
  readonly width: number;
  readonly depth: number;
}
