/** Names of the parts in a view, each beside its part and away from the beam; parts behind one another share a line. */
import { px } from '../number.ts';
import { LETTER } from '../short.ts';
import type { Spot } from '../outline.ts';

export interface NamesProps {
  /** The tube's exit, then the parts in the order of the path, on the paper. */
  readonly spots: readonly Spot[];
  readonly names: readonly string[];
  /** Pixels of the whole picture. */
  readonly width: number;
}

/** Pixels: closer than this, parts share a line. */
const TOGETHER = 14;
/** From the middle of a part to its name. */
const AWAY = 17;
const ROOM = 4;
const HALO = { 'paint-order': 'stroke', stroke: 'var(--paper)', 'stroke-width': 3 } as const;

export function Names({ spots, names, width }: NamesProps) {
  return (
    <g>
      {together(spots).map((group) => {
        const text = group.map((k) => names[k]).join(', ');
        const [first] = group;
        const { x, y, anchor } = beside(spots[first!]!, text, width, first === 0 ? BELOW : awayFrom(spots, group));
        return (
          <text key={first} class="small name" x={px(x)} y={px(y)} text-anchor={anchor} style={HALO}>
            {text}
          </text>
        );
      })}
    </g>
  );
}

function together(spots: readonly Spot[]): number[][] {
  const groups: number[][] = [];
  spots.forEach((spot, k) => {
    const near = groups.find(([first]) => distance(spots[first!]!, spot) < TOGETHER);
    if (near) near.push(k);
    else groups.push([k]);
  });
  return groups;
}

function distance(one: Spot, other: Spot): number {
  return Math.hypot(one.x - other.x, one.y - other.y);
}

const ABOVE: Spot = { x: 0, y: -1 };
/** The tube: its body lies beside, where the beam does not go. */
const BELOW: Spot = { x: 0, y: 1 };

/** A unit vector; above where the beam comes and goes alike. */
function awayFrom(spots: readonly Spot[], group: readonly number[]): Spot {
  const here = spots[group[0]!]!;
  const others = group
    .flatMap((k) => [spots[k - 1], spots[k + 1]])
    .filter((one) => one !== undefined)
    .filter((one) => distance(one, here) >= TOGETHER);
  const toward = others.map((other) => ({
    x: (other.x - here.x) / distance(other, here),
    y: (other.y - here.y) / distance(other, here),
  }));
  const [x, y] = [toward.reduce((sum, one) => sum - one.x, 0), toward.reduce((sum, one) => sum - one.y, 0)];
  const size = Math.hypot(x, y);
  return size < 0.2 ? ABOVE : { x: x / size, y: y / size };
}

/** Where there is no room for it at the side, above or below and as far in as it must be. */
function beside(
  { x, y }: Spot,
  text: string,
  width: number,
  away: Spot,
): Spot & { readonly anchor: 'start' | 'middle' | 'end' } {
  const long = text.length * LETTER.bold;
  const at = x + away.x * AWAY;
  if (away.x > 0.4 && at + long <= width - ROOM) return { x: at, y: y + away.y * AWAY + 4, anchor: 'start' };
  if (away.x < -0.4 && at - long >= ROOM) return { x: at, y: y + away.y * AWAY + 4, anchor: 'end' };
  const inside = Math.min(Math.max(x, ROOM + long / 2), width - ROOM - long / 2);
  return { x: inside, y: y + (away.y > 0 ? AWAY + 6 : -AWAY + 3), anchor: 'middle' };
}
