/**
 * How far the beam has come, and how wide it is there: free from the tube's exit to the lens, focused behind it. The lens
 * counts as fitted, whatever is out while tape is shot. mm.
 */
import type { Machine, PathElement, Quantity } from '../model/index.ts';
import { diameterAt, throughLens, type Beam } from '../optics/index.ts';
import { spreadOf } from './spread-of.ts';
import type { Tube } from './tube.ts';

interface Way {
  /** From the tube's exit, and what of it lies behind the lens. */
  readonly along: number;
  readonly beyond: number;
  /** Squares of the standard uncertainties: up to the lens, and behind it. */
  readonly before: number;
  readonly after: number;
  /** The lens that has been passed: its place in the path, its focal length, and whether a mirror has turned the beam since. */
  readonly lens?: { readonly index: number; readonly focal: Quantity; readonly isTurned: boolean };
}

/** On the tape of an element, `along` from the tube's exit. */
export interface Width {
  readonly along: number;
  /** Standard uncertainty of `along`. */
  readonly alongU: number;
  readonly diameter: number;
  /** Standard uncertainty of the diameter, and what of it does not come from the tube's figures, which all stations share. */
  readonly u: number;
  readonly apart: number;
  /** Straight behind a lens: what of the offset with which the beam met it the lens has taken off by here, as a share. */
  readonly bent?: { readonly lens: number; readonly share: number };
  /** The diameter of another beam there. */
  diameterOf(beam: Beam): number;
}

const START: Way = { along: 0, beyond: 0, before: 0, after: 0 };

/** Element by element, as far as there are legs. */
export function widthsOn({ path }: Pick<Machine, 'path'>, tube: Tube, legs: readonly Quantity[]): Width[] {
  let way = START;
  return legs.map(({ value, u }, index) => {
    const here = onward(way, value, u);
    way = past(here, path[index]!, index);
    return widthAfter(tube, here);
  });
}

function onward(way: Way, length: number, u = 0): Way {
  const along = way.along + length;
  if (way.lens === undefined) return { ...way, along, before: way.before + u ** 2 };
  return { ...way, along, beyond: way.beyond + length, after: way.after + u ** 2 };
}

/** Behind the element. A second lens changes nothing: what two do together is not said. */
function past(way: Way, { kind, inset, focal }: PathElement, index: number): Way {
  const through = onward(way, inset);
  if (way.lens) return { ...through, lens: { ...way.lens, isTurned: way.lens.isTurned || kind === 'mirror' } };
  return focal === undefined ? through : { ...through, lens: { index, focal, isTurned: false } };
}

function widthAfter({ beam, figures, beamIf }: Tube, { along, beyond, before, after, lens: passed }: Way): Width {
  const focal = passed?.focal;
  const wide = (of: Beam, lens: number, behind: number, f = focal?.value) =>
    f === undefined ? diameterAt(of, lens) : diameterAt(throughLens(of, lens, f), lens + behind);
  const lens = along - beyond;
  const diameterOf = (of: Beam) => wide(of, lens, beyond);
  const byLegs = spreadOf(
    (front, behind) => wide(beam, front, behind),
    [
      { value: lens, u: Math.sqrt(before) },
      { value: beyond, u: Math.sqrt(after) },
    ],
  );
  const byLens = focal ? spreadOf((f) => wide(beam, lens, beyond, f), [focal]) : 0;
  const byTube = spreadOf((...values) => diameterOf(beamIf(...values)), figures);
  const bent = passed && !passed.isTurned && { bent: { lens: passed.index, share: beyond / passed.focal.value } };
  return {
    along,
    alongU: Math.sqrt(before + after),
    diameter: diameterOf(beam),
    u: Math.hypot(byLegs, byLens, byTube),
    apart: Math.hypot(byLegs, byLens),
    ...bent,
    diameterOf,
  };
}
