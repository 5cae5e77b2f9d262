/** The beam paths of most machines, as written in the machine cell. */

export interface BeamPath {
  readonly fires: string;
  readonly mirrors: readonly Mirror[];
}

export interface Mirror {
  readonly sends: string;
  /** The carriage that it rides, and which of the two travels that carriage has; absent for a fixed mirror. */
  readonly rides?: { readonly carriage: 'gantry' | 'head'; readonly travel: 'width' | 'depth' };
}

/** By the position of the tube and the direction of its beam. */
export const BEAM_PATHS = {
  rearLeft: byGantry('left', 'front', 'right'),
  rearRight: byGantry('right', 'front', 'left'),
  frontLeft: byGantry('left', 'rear', 'right'),
  frontRight: byGantry('right', 'rear', 'left'),
  gantryLeft: fromGantry('left'),
  gantryRight: fromGantry('right'),
} as const satisfies Readonly<Record<string, BeamPath>>;

/** One mirror in the corner, one on the gantry, one on the head. */
function byGantry(fires: string, first: string, second: string): BeamPath {
  return {
    fires,
    mirrors: [
      { sends: first },
      { sends: second, rides: { carriage: 'gantry', travel: 'depth' } },
      { sends: 'down', rides: { carriage: 'head', travel: 'width' } },
    ],
  };
}

/** The tube rides the gantry: one mirror, on the head. */
function fromGantry(fires: string): BeamPath {
  return { fires, mirrors: [{ sends: 'down', rides: { carriage: 'head', travel: 'width' } }] };
}
