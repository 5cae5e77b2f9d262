/**
 * The deviations of a real machine from its layout: the tube, each mirror, each block, each aperture.
 *
 * It contains everything that alignment changes or estimates and nothing else, all zero for the nominal machine, so
 * that an estimator can use a setting as its vector of unknowns.
 *
 * Axes: blocks in the machine frame (x right, y rear, z up); tube and apertures in the viewer's frame of their beam
 * (right = beam × up). Units: mm; angles as slopes (tangents), which are radians to a part in a million at 1 mrad.
 */
import { viewer } from '../model/index.ts';
import type { Layout } from './layout.ts';
import { AT_REST, type Pose } from './mount.ts';
import { dot, type Vector } from './vector.ts';

/**
 * The beam as it leaves the tube: offset, mm, and slopes; its direction is normalise(d + turnRight·right + turnUp·up).
 */
export interface Tube {
  readonly right: number;
  readonly up: number;
  readonly turnRight: number;
  readonly turnUp: number;
}

/** The pose of a mirror, and the shift of its block; the block carries the mirror AND its own aperture. */
export interface Departure {
  readonly pose: Pose;
  readonly shift: Vector;
}

/** By element index. Entries of lenses and stations count too: their `shift` moves the aperture; they have no pose. */
export interface Setting {
  readonly tube: Tube;
  readonly mirrors: readonly Departure[];
  /** Offset of the centre of the aperture from nominal, mm, viewer's frame of the arriving beam. */
  readonly apertures: readonly { readonly right: number; readonly up: number }[];
}

export const UNMOVED: Departure = { pose: AT_REST, shift: [0, 0, 0] };
export const CENTRED = { right: 0, up: 0 } as const;

/** The nominal setting: the beam meets the centre of every tape. */
export function nominal(layout: Layout): Setting {
  return {
    tube: { right: 0, up: 0, turnRight: 0, turnUp: 0 },
    mirrors: layout.elements.map(() => UNMOVED),
    apertures: layout.elements.map(() => CENTRED),
  };
}

/**
 * The effect of moving the whole tube on the beam at its exit, mm. The component along the beam only changes the first
 * leg, which has no effect on a nominal beam, and is ignored.
 *
 * @param shift mm, machine frame
 */
export function tubeShift(layout: Layout, shift: Vector): { readonly right: number; readonly up: number } {
  const view = viewer(layout.fires);
  return { right: dot(shift, view.right), up: dot(shift, view.up) };
}

/** Where the tube is held: mm back from its exit. */
export interface Holders {
  readonly exit: number;
  readonly tail: number;
}

/**
 * The effect of moving ONE end of the tube: a rigid rod through two holders, of which the other is fixed. With holders
 * at e and t and the exit's moved by s: turn = s/(t − e), exit offset = s·t/(t − e). With the tail's: −s/(t − e) and
 * −s·e/(t − e). Exact for the rod's axis as a line of offset against distance; the shortening by the rod's slope is
 * ignored (a part in a million at 1 mrad). Undefined where both holders are at the same place.
 *
 * @param shift mm, machine frame, of the holder named by `end`
 */
export function tubeEndShift(layout: Layout, holders: Holders, end: 'exit' | 'tail', shift: Vector): Tube | undefined {
  const holderDistance = holders.tail - holders.exit;
  if (holderDistance === 0) return undefined;
  const turn = (end === 'exit' ? 1 : -1) / holderDistance;
  const offset = turn * (end === 'exit' ? holders.tail : holders.exit);
  const { right, up } = tubeShift(layout, shift);
  return { right: offset * right, up: offset * up, turnRight: turn * right, turnUp: turn * up };
}
