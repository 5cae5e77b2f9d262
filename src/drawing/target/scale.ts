/** Between millimetres on the tape and pixels on the paper: up is up, right is right unless it is seen from behind. */
import { scaleLinear } from 'd3-scale';
import type { TargetFigure } from '../../model/index.ts';
import type { Spot } from '../outline.ts';

export interface OnTape {
  readonly right: number;
  readonly up: number;
}

/** What of a figure says how much of the tape is drawn. */
type Measured = Pick<TargetFigure, 'aperture' | 'limit' | 'marks' | 'halves' | 'expected'>;

export interface TapeScale {
  /** mm from the middle to the rim of what is drawn. */
  readonly reach: number;
  /** Pixels a millimetre. */
  readonly per: number;
  readonly middle: Spot;
  readonly radius: number;
  /** A mark beyond what is drawn stands at the rim, in its direction. */
  at(mark: OnTape): Spot;
  /** The other way. */
  from(spot: Spot): OnTape;
}

/** Room for the names of the sides. */
export const MARGIN = { side: 56, top: 20, bottom: 32 } as const;

export function tapeScale(figure: Measured, width: number, behind: boolean): TapeScale {
  const radius = width / 2 - MARGIN.side;
  const reach = reachOf(figure);
  const middle = { x: width / 2, y: MARGIN.top + radius };
  const sense = behind ? -1 : 1;
  const across = scaleLinear([-reach, reach], [middle.x - sense * radius, middle.x + sense * radius]);
  const upward = scaleLinear([-reach, reach], [middle.y + radius, middle.y - radius]);
  return {
    reach,
    radius,
    middle,
    per: radius / reach,
    at: ({ right, up }) => {
      const shrink = Math.min(1, reach / Math.hypot(right, up));
      return { x: across(right * shrink), y: upward(up * shrink) };
    },
    from: ({ x, y }) => ({ right: across.invert(x), up: upward.invert(y) }),
  };
}

/** Nobody places a mark farther out than a tape is wide. */
const MOST_HOLES = 2.5;

/** The limit with room around it, the hole where marks come near its edge, and every mark as far as a tape reaches. */
function reachOf({ aperture, limit, marks, halves, expected }: Measured): number {
  const farthest = Math.max(
    limit === undefined ? aperture / 2 : 1.6 * limit,
    ...marks.map(({ right, up, u }) => Math.hypot(right, up) * 1.1 + 2 * u),
    ...halves.map(({ value, u }) => Math.abs(value) * 1.1 + 2 * u),
    ...expected.map(({ right, up, ellipse }) => Math.hypot(right, up) + ellipse.major),
  );
  const withHole = farthest > aperture / 3 ? Math.max(farthest, (aperture / 2) * 1.08) : farthest;
  return Math.min(withHole, (aperture / 2) * MOST_HOLES);
}
