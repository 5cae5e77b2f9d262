/** Converts between millimetres on the tape and pixels: up is up, right is right unless it is seen from behind. */
import type { TargetFigure } from '../../model/index.ts';
import { linear } from '../linear.ts';
import type { PixelPoint } from '../outline.ts';

/** A point on the tape, mm from the centre of its aperture in the viewer's frame. */
export interface OnTape {
  readonly right: number;
  readonly up: number;
}

/** The part of the tape that is drawn: a square, mm. */
export interface TapeWindow {
  readonly middle: OnTape;
  readonly across: number;
}

/** The parts of a figure that determine how much of the tape is drawn. */
type Measured = Pick<TargetFigure, 'aperture' | 'limit' | 'marks' | 'halves' | 'expected'>;

/** The scale of a drawn tape. */
export interface TapeScale {
  readonly window: TapeWindow;
  /** Width and height of the field, pixels. */
  readonly size: number;
  /** Pixels per millimetre. */
  readonly per: number;
  /** The centre of the aperture, pixels from the upper left corner of the field. */
  readonly centre: PixelPoint;
  /** Pixels from the upper left corner of the field. A mark beyond it is placed at its edge, in its direction. */
  at(mark: OnTape): PixelPoint;
  /** The same without moving it to the edge. */
  beyond(mark: OnTape): PixelPoint;
  isInside(mark: OnTape): boolean;
  /** The inverse. */
  from(point: PixelPoint): OnTape;
}

/** Pixels from the edge to the middle of a sign that is placed there. */
const EDGE = 9;

/** The scale of a field of this size in pixels. */
export function tapeScale(window: TapeWindow, size: number, behind: boolean): TapeScale {
  const { middle, across } = window;
  const half = across / 2;
  const sense = behind ? -1 : 1;
  const rightward = linear([middle.right - sense * half, middle.right + sense * half], [0, size]);
  const upward = linear([middle.up - half, middle.up + half], [size, 0]);
  const beyond = ({ right, up }: OnTape) => ({ x: rightward(right), y: upward(up) });
  return {
    window,
    size,
    per: size / across,
    centre: beyond({ right: 0, up: 0 }),
    beyond,
    isInside: ({ right, up }) => Math.max(Math.abs(right - middle.right), Math.abs(up - middle.up)) <= half,
    at: (mark) => {
      const { x, y } = beyond(mark);
      const out = Math.max(Math.abs(x - size / 2), Math.abs(y - size / 2));
      const shrink = out <= size / 2 ? 1 : (size / 2 - EDGE) / out;
      return { x: size / 2 + (x - size / 2) * shrink, y: size / 2 + (y - size / 2) * shrink };
    },
    from: ({ x, y }) => ({ right: rightward.invert(x), up: upward.invert(y) }),
  };
}

/** No mark is placed farther out than a tape is wide. */
const MOST_APERTURES = 2.5;

/** The window that shows all of these tapes at one scale. */
export function fitted(...figures: readonly Measured[]): TapeWindow {
  return { middle: { right: 0, up: 0 }, across: 2 * Math.max(...figures.map(reachOf)) };
}

/**
 * mm. Includes the limit with a margin, the aperture if marks are near its edge, every mark within the width of a tape,
 * and predictions as far as the aperture: a beam that may be anywhere is no reason to read a mark in the small.
 */
function reachOf({ aperture, limit, marks, halves, expected }: Measured): number {
  const radius = aperture / 2;
  const farthest = Math.max(
    limit === undefined ? radius : 1.6 * limit,
    ...marks.map(({ right, up, u }) => Math.max(Math.abs(right), Math.abs(up)) * 1.15 + 2 * u),
    ...halves.map(({ value, u }) => Math.abs(value) * 1.15 + 2 * u),
    ...expected.map(({ right, up, ellipse }) =>
      Math.min(radius, Math.max(Math.abs(right), Math.abs(up)) + ellipse.major),
    ),
  );
  const isUnread = marks.length + halves.length + expected.length === 0;
  const withAperture = isUnread || farthest > aperture / 3 ? Math.max(farthest, radius * 1.2) : farthest;
  return Math.min(withAperture, radius * MOST_APERTURES);
}

/** mm across: the closest, and the widest unless everything fits only a wider one. */
const CLOSEST = 2;
const WIDEST = 40;

/** The window after zooming by a factor, above 1 closer; the point `about` stays where it is. */
export function zoomed(window: TapeWindow, factor: number, about: OnTape, fit: TapeWindow): TapeWindow {
  const { middle } = window;
  const across = Math.min(Math.max(WIDEST, fit.across), Math.max(CLOSEST, window.across / factor));
  const shrink = across / window.across;
  return {
    across,
    middle: {
      right: about.right + (middle.right - about.right) * shrink,
      up: about.up + (middle.up - about.up) * shrink,
    },
  };
}
