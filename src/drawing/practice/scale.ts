/** Millimetres on a burnt tape to pixels: up is up, right is right unless it is seen from behind. */
import type { Axes, BurnFigure } from '../../model/index.ts';
import type { PixelPoint } from '../outline.ts';

/** Pixels above and below the tape, for the words of its sides. */
export const MARGIN = { top: 18, bottom: 22 } as const;

/** Height of the whole picture, pixels. */
export function burnHeight(width: number): number {
  return MARGIN.top + width + MARGIN.bottom;
}

/** The scale of a burnt tape in a square of this width in pixels. */
export interface BurnScale {
  /** mm from the centre to the edge. */
  readonly reach: number;
  /** Pixels per millimetre. */
  readonly per: number;
  readonly centre: PixelPoint;
  at(point: Axes): PixelPoint;
  /** The inverse. */
  from(point: PixelPoint): Axes;
}

/** The same scale for every tape of a station, so that two tapes compare. */
export function burnScale({ reach }: Pick<BurnFigure, 'reach'>, width: number, behind: boolean): BurnScale {
  const per = width / 2 / reach;
  const centre = { x: width / 2, y: MARGIN.top + width / 2 };
  const sense = behind ? -1 : 1;
  return {
    reach,
    per,
    centre,
    at: ({ right, up }) => ({ x: centre.x + sense * right * per, y: centre.y - up * per }),
    from: ({ x, y }) => ({ right: (sense * (x - centre.x)) / per, up: (centre.y - y) / per }),
  };
}
