/** Signs that would lie on one another are moved aside, away from the others; a leader ends at the true place. */
import type { PixelPoint } from '../outline.ts';

/** Pixels: signs nearer than this are moved, by one of these distances, in one of this number of directions. */
const NEAR = 16;
const ASIDE = [20, 22, 24];
const WAYS = 24;
/** Pixels between the middles of two signs that hardly touch. */
const CLEAR = 17;

/**
 * Where to draw each sign. Those in a group are moved one after the other to the place with the least overlap, and of
 * those to the farthest from the middle of the group.
 *
 * @param size of the square in which they must stay, pixels
 */
export function apart(points: readonly PixelPoint[], size: number): readonly PixelPoint[] {
  const groups = groupsOf(points);
  const moved: PixelPoint[] = [...points];
  const isDone = points.map((_, k) => groups.every((group) => !group.includes(k)));
  for (const group of groups) {
    const middle = meanOf(group.map((k) => points[k]!));
    for (const k of group) {
      const others = points.flatMap((point, j) => (j === k ? [] : isDone[j] ? [moved[j]!, point] : [point]));
      moved[k] = best(points[k]!, others, middle, size);
      isDone[k] = true;
    }
  }
  return moved;
}

/** Groups of two and more, in which each is near another. */
function groupsOf(points: readonly PixelPoint[]): number[][] {
  const group = points.map((_, k) => k);
  points.forEach((one, k) =>
    points.slice(0, k).forEach((other, j) => {
      if (distance(one, other) >= NEAR) return;
      const [keep, merge] = [group[j]!, group[k]!];
      group.forEach((of, i) => (group[i] = of === merge ? keep : of));
    }),
  );
  return [...new Set(group)]
    .map((one) => points.flatMap((_, k) => (group[k] === one ? [k] : [])))
    .filter(({ length }) => length > 1);
}

function best(point: PixelPoint, others: readonly PixelPoint[], middle: PixelPoint, size: number): PixelPoint {
  let [found, least] = [point, Infinity];
  for (const by of ASIDE)
    for (let way = 0; way < WAYS; way++) {
      const angle = (2 * Math.PI * way) / WAYS;
      const at = { x: point.x + by * Math.cos(angle), y: point.y - by * Math.sin(angle) };
      const isOut = Math.max(Math.abs(at.x - size / 2), Math.abs(at.y - size / 2)) > size / 2 - CLEAR / 2;
      const overlap = others.reduce((sum, other) => sum + Math.max(0, CLEAR - distance(at, other)), 0);
      const cost = overlap + (isOut ? CLEAR : 0) + by / 1e3 - distance(at, middle) / 1e2;
      if (cost < least - 1e-9) [found, least] = [at, cost];
    }
  return found;
}

function meanOf(points: readonly PixelPoint[]): PixelPoint {
  const sum = points.reduce((so, { x, y }) => ({ x: so.x + x, y: so.y + y }));
  return { x: sum.x / points.length, y: sum.y / points.length };
}

export function distance(one: PixelPoint, other: PixelPoint): number {
  return Math.hypot(one.x - other.x, one.y - other.y);
}
