/**
 * The distance along the beam and its width at each element: free from the tube's exit to the lens, focused behind it.
 * The lens counts as fitted, although it is out while tape is shot. mm.
 */
import type { Machine, PathElement, Quantity } from '../model/index.ts';
import { diameterAt, throughLens, type Beam } from '../optics/index.ts';
import { combinedUncertainty } from './combined-uncertainty.ts';
import type { Tube } from './tube.ts';

interface PathLength {
  /** Distance from the tube's exit, and the part of it behind the lens. */
  readonly along: number;
  readonly beyond: number;
  /** Variances of the distance: up to the lens, and behind it. */
  readonly variance: number;
  readonly varianceBeyond: number;
  /**
   * The lens that the beam has passed: its index in the path, its focal length, and whether a mirror has turned the
   * beam since.
   */
  readonly lens?: { readonly index: number; readonly focal: Quantity; readonly isTurned: boolean };
}

/** On the tape of an element, `along` from the tube's exit. */
export interface Width {
  readonly along: number;
  /** Standard uncertainty of `along`. */
  readonly alongU: number;
  readonly diameter: number;
  /**
   * Standard uncertainty of the diameter, and its part that does not come from the tube's values, which all stations
   * have in common.
   */
  readonly u: number;
  readonly independentU: number;
  /** Straight behind a lens: the deflection here, as a fraction of the offset with which the beam meets the lens. */
  readonly refraction?: { readonly lens: number; readonly fraction: number };
  /** The diameter of another beam there. */
  diameterOf(beam: Beam): number;
}

const START: PathLength = { along: 0, beyond: 0, variance: 0, varianceBeyond: 0 };

/** The width at each element, as far as legs are known. */
export function widthsOn({ path }: Pick<Machine, 'path'>, tube: Tube, legs: readonly Quantity[]): Width[] {
  let travelled = START;
  return legs.map(({ value, u }, index) => {
    const arrived = onward(travelled, value, u);
    travelled = past(arrived, path[index]!, index);
    return widthAt(tube, arrived);
  });
}

function onward(travelled: PathLength, length: number, u = 0): PathLength {
  const along = travelled.along + length;
  if (travelled.lens === undefined) return { ...travelled, along, variance: travelled.variance + u ** 2 };
  return { ...travelled, along, beyond: travelled.beyond + length, varianceBeyond: travelled.varianceBeyond + u ** 2 };
}

/** The distance behind an element. A second lens is ignored: a combination of two is not modelled. */
function past(travelled: PathLength, { kind, inset, focal }: PathElement, index: number): PathLength {
  const through = onward(travelled, inset);
  if (travelled.lens)
    return { ...through, lens: { ...travelled.lens, isTurned: travelled.lens.isTurned || kind === 'mirror' } };
  return focal === undefined ? through : { ...through, lens: { index, focal, isTurned: false } };
}

function widthAt(
  { beam, figures, beamIf }: Tube,
  { along, beyond, variance, varianceBeyond, lens: lensPassed }: PathLength,
): Width {
  const focal = lensPassed?.focal;
  const wide = (beam: Beam, lens: number, behind: number, f = focal?.value) =>
    f === undefined ? diameterAt(beam, lens) : diameterAt(throughLens(beam, lens, f), lens + behind);
  const lens = along - beyond;
  const diameterOf = (beam: Beam) => wide(beam, lens, beyond);
  const byLegs = combinedUncertainty(
    (front, behind) => wide(beam, front, behind),
    [
      { value: lens, u: Math.sqrt(variance) },
      { value: beyond, u: Math.sqrt(varianceBeyond) },
    ],
  );
  const byLens = focal ? combinedUncertainty((f) => wide(beam, lens, beyond, f), [focal]) : 0;
  const byTube = combinedUncertainty((...values) => diameterOf(beamIf(...values)), figures);
  const refraction = lensPassed &&
    !lensPassed.isTurned && { refraction: { lens: lensPassed.index, fraction: beyond / lensPassed.focal.value } };
  return {
    along,
    alongU: Math.sqrt(variance + varianceBeyond),
    diameter: diameterOf(beam),
    u: Math.hypot(byLegs, byLens, byTube),
    independentU: Math.hypot(byLegs, byLens),
    ...refraction,
    diameterOf,
  };
}
