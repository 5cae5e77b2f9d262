/** Lines and areas as the `d` of an SVG path. Points in px, y down, rounded to tenths. */
import { px } from './number.ts';

/** A point in a picture, pixels, y down. */
export interface PixelPoint {
  readonly x: number;
  readonly y: number;
}

/** A line through the points, interrupted where one is missing. A single point is a dot. */
export function lineThrough(points: readonly (PixelPoint | undefined)[]): string {
  return points
    .map((point, k) => {
      if (!point) return '';
      const isAlone = !points[k - 1] && !points[k + 1];
      return `${points[k - 1] ? 'L' : 'M'}${px(point.x)},${px(point.y)}${isAlone ? 'Z' : ''}`;
    })
    .join('');
}

/** The area between two edges in the same direction. */
export function areaBetween(edge: readonly PixelPoint[], other: readonly PixelPoint[]): string {
  return `${lineThrough([...edge, ...other.toReversed()])}Z`;
}
