/**
 * The names of the parts in a view, each beside its part on the side away from the beam; parts at one place share a
 * line.
 */
import { px } from '../number.ts';
import { LETTER } from '../short.ts';
import type { PixelPoint } from '../outline.ts';

export interface NamesProps {
  /** The tube's exit, then the parts in the order of the path, in px. */
  readonly points: readonly PixelPoint[];
  readonly names: readonly string[];
  /** Pixels of the whole picture. */
  readonly width: number;
}

/** Pixels: parts closer than this share a line. */
const SAME_LINE = 14;
/** From the centre of a part to its name. */
const AWAY = 17;
const ROOM = 4;
const HALO = { 'paint-order': 'stroke', stroke: 'var(--paper)', 'stroke-width': 3 } as const;

export function Names({ points, names, width }: NamesProps) {
  return (
    <g>
      {grouped(points).map((group) => {
        const text = group.map((k) => names[k]).join(', ');
        const [first] = group;
        const { x, y, anchor } = beside(points[first!]!, text, width, first === 0 ? BELOW : awayFrom(points, group));
        return (
          <text key={first} class="small name" x={px(x)} y={px(y)} text-anchor={anchor} style={HALO}>
            {text}
          </text>
        );
      })}
    </g>
  );
}

function grouped(points: readonly PixelPoint[]): number[][] {
  const groups: number[][] = [];
  points.forEach((point, k) => {
    const near = groups.find(([first]) => distance(points[first!]!, point) < SAME_LINE);
    if (near) near.push(k);
    else groups.push([k]);
  });
  return groups;
}

function distance(one: PixelPoint, other: PixelPoint): number {
  return Math.hypot(one.x - other.x, one.y - other.y);
}

const ABOVE: PixelPoint = { x: 0, y: -1 };
/** The tube: its body is beside it, on the side without the beam. */
const BELOW: PixelPoint = { x: 0, y: 1 };

/** A unit vector away from the beam; upward if the beam passes straight through. */
function awayFrom(points: readonly PixelPoint[], group: readonly number[]): PixelPoint {
  const here = points[group[0]!]!;
  const others = group
    .flatMap((k) => [points[k - 1], points[k + 1]])
    .filter((one) => one !== undefined)
    .filter((one) => distance(one, here) >= SAME_LINE);
  const toward = others.map((other) => ({
    x: (other.x - here.x) / distance(other, here),
    y: (other.y - here.y) / distance(other, here),
  }));
  const [x, y] = [toward.reduce((sum, one) => sum - one.x, 0), toward.reduce((sum, one) => sum - one.y, 0)];
  const size = Math.hypot(x, y);
  return size < 0.2 ? ABOVE : { x: x / size, y: y / size };
}

/** At the side if there is room, else above or below, moved inside the picture. */
function beside(
  { x, y }: PixelPoint,
  text: string,
  width: number,
  away: PixelPoint,
): PixelPoint & { readonly anchor: 'start' | 'middle' | 'end' } {
  const long = text.length * LETTER.bold;
  const at = x + away.x * AWAY;
  if (away.x > 0.4 && at + long <= width - ROOM) return { x: at, y: y + away.y * AWAY + 4, anchor: 'start' };
  if (away.x < -0.4 && at - long >= ROOM) return { x: at, y: y + away.y * AWAY + 4, anchor: 'end' };
  const inside = Math.min(Math.max(x, ROOM + long / 2), width - ROOM - long / 2);
  return { x: inside, y: y + (away.y > 0 ? AWAY + 6 : -AWAY + 3), anchor: 'middle' };
}
