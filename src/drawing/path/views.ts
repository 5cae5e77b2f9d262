/** The three views of a machine at one scale, one below the other, as in a technical drawing. */
import type { Displacement, PathFigure } from '../../model/index.ts';
import type { PixelPoint } from '../outline.ts';

export type Axis = 0 | 1 | 2;

export interface ViewFrom {
  readonly name: string;
  /** Machine axes to the right and upward in the picture. */
  readonly across: Axis;
  readonly upward: Axis;
}

/** Right in the picture = viewing direction × up in the picture, in each view. */
const VIEWS: readonly ViewFrom[] = [
  { name: 'from above, rear at the top', across: 0, upward: 1 },
  { name: 'from the front', across: 0, upward: 2 },
  { name: 'from the right, rear at the right', across: 1, upward: 2 },
];

export interface PathScale {
  /** Pixels per millimetre. */
  readonly per: number;
  /** Magnification of the beam's distance from the centre. */
  readonly factor: number;
  readonly views: readonly View[];
  readonly height: number;
}

export interface View extends ViewFrom {
  /** Pixels from the top of the drawing to that of the view, and its height. */
  readonly top: number;
  readonly height: number;
  /** A place of the machine, and the beam's offset from it (mm, magnified), in px. */
  at(place: Displacement, off?: Displacement): PixelPoint;
}

/** Margins for names and the beam; above it the view's name. */
const ROOM = { side: 52, edge: 30, name: 16 };
/** Pixels: maximum height of a view. */
const HIGHEST = 420;

export function pathScale(figure: PathFigure, width: number): PathScale {
  const places = placesIn(figure);
  const span = (axis: Axis) => ({
    from: Math.min(...places.map((place) => place[axis])),
    to: Math.max(...places.map((place) => place[axis])),
  });
  const spans = [span(0), span(1), span(2)] as const;
  const sizes = spans.map(({ from, to }) => to - from);
  const per = Math.min(
    (width - 2 * ROOM.side) / Math.max(sizes[0]!, sizes[1]!, 1),
    HIGHEST / Math.max(sizes[1]!, sizes[2]!, 1),
  );
  const factor = factorOf(figure, per);
  let top = 0;
  const views = VIEWS.map((from): View => {
    const begins = top;
    const height = ROOM.name + 2 * ROOM.edge + sizes[from.upward]! * per;
    top += height;
    const left = (width - sizes[from.across]! * per) / 2;
    return {
      ...from,
      height,
      top: begins,
      at: (place, off = [0, 0, 0]) => ({
        x: left + (place[from.across] + factor * off[from.across] - spans[from.across].from) * per,
        y:
          begins +
          ROOM.name +
          ROOM.edge +
          (spans[from.upward].to - place[from.upward] - factor * off[from.upward]) * per,
      }),
    };
  });
  return { per, factor, views, height: top };
}

function placesIn({ parts, carriages }: PathFigure): Displacement[] {
  return [[0, 0, 0], ...parts.map(({ at }) => at), ...carriages.flatMap(({ ends }) => ends)];
}

/** Maximum magnified offset of the beam, pixels. */
const FARTHEST = 20;

/** 1, 2 or 5 times a power of ten: the largest magnification that keeps the beam near its parts. */
function factorOf({ parts, tube }: PathFigure, per: number): number {
  const offs = [tube.off, ...parts.flatMap(({ met, thenMet }) => [met ?? [0, 0, 0], thenMet ?? [0, 0, 0]] as const)];
  const largest = Math.max(...offs.map((off) => Math.hypot(...off)), 0.1);
  return [200, 100, 50, 20, 10, 5, 2].find((factor) => factor * largest * per <= FARTHEST) ?? 1;
}
