/** Lines and areas as the `d` of an SVG path. Points in px, y down, rounded to tenths. */
import { path } from 'd3-path';
import { px } from './number.ts';

/** A point in a picture, pixels, y down. */
export interface PixelPoint {
  readonly x: number;
  readonly y: number;
}

/** A line through the points, interrupted where one is missing. A single point is a dot. */
export function lineThrough(points: readonly (PixelPoint | undefined)[]): string {
  const drawn = path();
  points.forEach((point, k) => {
    if (!point) return;
    if (points[k - 1]) drawn.lineTo(px(point.x), px(point.y));
    else drawn.moveTo(px(point.x), px(point.y));
    if (!points[k - 1] && !points[k + 1]) drawn.closePath();
  });
  return drawn.toString();
}

/** The area between two edges in the same direction. */
export function areaBetween(edge: readonly PixelPoint[], other: readonly PixelPoint[]): string {
  return `${lineThrough([...edge, ...other.toReversed()])}Z`;
}
