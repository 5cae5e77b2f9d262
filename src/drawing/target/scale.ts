/** Converts between millimetres on the tape and pixels: up is up, right is right unless it is seen from behind. */
import { scaleLinear } from 'd3-scale';
import type { TargetFigure } from '../../model/index.ts';
import type { PixelPoint } from '../outline.ts';

/** A point on the tape, mm from its centre in the viewer's frame. */
export interface OnTape {
  readonly right: number;
  readonly up: number;
}

/** The parts of a figure that determine how much of the tape is drawn. */
type Measured = Pick<TargetFigure, 'aperture' | 'limit' | 'marks' | 'halves' | 'expected'>;

/** The scale of a drawn tape. */
export interface TapeScale {
  /** mm from the centre to the rim of the drawn tape. */
  readonly reach: number;
  /** Pixels per millimetre. */
  readonly per: number;
  readonly centre: PixelPoint;
  readonly radius: number;
  /** A mark beyond the drawn tape is placed at the rim, in its direction. */
  at(mark: OnTape): PixelPoint;
  /** The inverse. */
  from(point: PixelPoint): OnTape;
}

/** Margins for the names of the sides. */
export const MARGIN = { side: 56, top: 20, bottom: 32 } as const;

/** The scale of a station's tape in a picture of this width in pixels. */
export function tapeScale(figure: Measured, width: number, behind: boolean): TapeScale {
  const radius = width / 2 - MARGIN.side;
  const reach = reachOf(figure);
  const centre = { x: width / 2, y: MARGIN.top + radius };
  const sense = behind ? -1 : 1;
  const across = scaleLinear([-reach, reach], [centre.x - sense * radius, centre.x + sense * radius]);
  const upward = scaleLinear([-reach, reach], [centre.y + radius, centre.y - radius]);
  return {
    reach,
    radius,
    centre,
    per: radius / reach,
    at: ({ right, up }) => {
      const shrink = Math.min(1, reach / Math.hypot(right, up));
      return { x: across(right * shrink), y: upward(up * shrink) };
    },
    from: ({ x, y }) => ({ right: across.invert(x), up: upward.invert(y) }),
  };
}

/** No mark is placed farther out than a tape is wide. */
const MOST_APERTURES = 2.5;

/**
 * Includes the limit with a margin, the aperture if marks are near its edge, and every mark within the width of a tape.
 */
function reachOf({ aperture, limit, marks, halves, expected }: Measured): number {
  const farthest = Math.max(
    limit === undefined ? aperture / 2 : 1.6 * limit,
    ...marks.map(({ right, up, u }) => Math.hypot(right, up) * 1.1 + 2 * u),
    ...halves.map(({ value, u }) => Math.abs(value) * 1.1 + 2 * u),
    ...expected.map(({ right, up, ellipse }) => Math.hypot(right, up) + ellipse.major),
  );
  const withAperture = farthest > aperture / 3 ? Math.max(farthest, (aperture / 2) * 1.08) : farthest;
  return Math.min(withAperture, (aperture / 2) * MOST_APERTURES);
}
