/** Lines and areas as the `d` of an SVG path. Points in px, y down, rounded to tenths. */
import { path, pathRound } from 'd3-path';
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

/** A sector of a ring around the origin. Radii in px; the angle from the top, clockwise, rad, at most one turn. */
export function ringSector(
  { inner, outer }: { readonly inner: number; readonly outer: number },
  angle: number,
): string {
  const [from, to] = [-Math.PI / 2, angle - Math.PI / 2];
  const drawn = pathRound();
  drawn.moveTo(outer * Math.cos(from), outer * Math.sin(from));
  drawn.arc(0, 0, outer, from, to, angle < 0);
  if (Math.abs(angle) >= 2 * Math.PI) drawn.moveTo(inner * Math.cos(to), inner * Math.sin(to));
  drawn.arc(0, 0, inner, to, from, angle > 0);
  drawn.closePath();
  return drawn.toString();
}
