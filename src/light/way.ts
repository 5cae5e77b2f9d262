/**
 * How far the beam has come, and how wide it is there: free from the tube's exit to the lens, focused behind it. The lens
 * counts as fitted, whatever is out while tape is shot. mm.
 */
import type { PathElement } from '../model/index.ts';
import { diameterAt, diameterBehind, type Beam } from '../optics/index.ts';
import { slope } from './slope.ts';

export interface Way {
  /** From the tube's exit, and what of it lies behind the lens. */
  readonly along: number;
  readonly beyond: number;
  /** Squares of the standard uncertainties: up to the lens, and behind it. */
  readonly before: number;
  readonly after: number;
  /** Of the lens that has been passed. */
  readonly focal?: number;
}

export interface Width {
  readonly diameter: number;
  readonly u: number;
}

export const START: Way = { along: 0, beyond: 0, before: 0, after: 0 };

export function onward(way: Way, length: number, u = 0): Way {
  const along = way.along + length;
  if (way.focal === undefined) return { ...way, along, before: way.before + u ** 2 };
  return { ...way, along, beyond: way.beyond + length, after: way.after + u ** 2 };
}

/** Behind the element. A second lens changes nothing: what two do together is not said. */
export function past(way: Way, { inset, focal }: PathElement): Way {
  const through = onward(way, inset);
  return focal === undefined || way.focal !== undefined ? through : { ...through, focal };
}

/** With its standard uncertainty by that of the legs, to first order. */
export function widthAfter(beam: Beam, { along, beyond, before, after, focal }: Way): Width {
  const wide = (to: number, behind: number) => (focal === undefined ? diameterAt(beam, to) : diameterBehind(beam, to, focal, behind));
  const lens = along - beyond;
  const byBefore = slope((to) => wide(to, beyond), lens);
  const byAfter = focal === undefined ? 0 : slope((behind) => wide(lens, behind), beyond);
  return { diameter: wide(lens, beyond), u: Math.hypot(byBefore * Math.sqrt(before), byAfter * Math.sqrt(after)) };
}
