/** Diagonal hatching of a part of the field, computed line by line: a pattern would need an id of its own. */
import { px } from '../number.ts';

/** Pixels. */
export interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** Where a line runs, along itself. */
type Stretch = readonly [from: number, to: number];

/** Lines from lower left to upper right, outside one disc and, if given, inside the other, in a square of this size. */
export function hatching(size: number, step: number, outside: Disc, inside?: Disc): string {
  const lines: string[] = [];
  for (let sum = step; sum < 2 * size; sum += step) {
    // Along the line, t is x; y = sum − x.
    const field: Stretch = [Math.max(0, sum - size), Math.min(size, sum)];
    const kept = inside ? within(field, chord(inside, sum)) : field;
    for (const [from, to] of without(kept, chord(outside, sum))) {
      if (to - from < 0.5) continue;
      lines.push(`M${px(from)},${px(sum - from)}L${px(to)},${px(sum - to)}`);
    }
  }
  return lines.join('');
}

/** Where the line is inside a disc. */
function chord({ x, y, radius }: Disc, sum: number): Stretch | undefined {
  const middle = (x + sum - y) / 2;
  const distance = Math.abs(x + y - sum) / Math.SQRT2;
  if (distance >= radius) return undefined;
  const half = Math.sqrt((radius ** 2 - distance ** 2) / 2);
  return [middle - half, middle + half];
}

function within(of: Stretch, other: Stretch | undefined): Stretch | undefined {
  if (!other) return undefined;
  const [from, to] = [Math.max(of[0], other[0]), Math.min(of[1], other[1])];
  return from < to ? [from, to] : undefined;
}

function without(of: Stretch | undefined, hole: Stretch | undefined): readonly Stretch[] {
  if (!of) return [];
  if (!hole || hole[1] <= of[0] || hole[0] >= of[1]) return [of];
  return [
    [of[0], Math.max(of[0], hole[0])],
    [Math.min(of[1], hole[1]), of[1]],
  ];
}
