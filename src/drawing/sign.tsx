/** The sign of a place of the carriages: shape, colour and letter, so that any one of them is sufficient. */
import type { TargetPlace } from '../model/index.ts';
import { px } from './number.ts';

export interface SignProps {
  readonly x: number;
  readonly y: number;
  readonly place: number;
  readonly letter: string;
  /** Hollow: stale. */
  readonly hollow?: boolean;
}

/** Fills and lines of a place. */
const COLOURS = 5;

export function lineColour(place: number): string {
  return `var(--l${place % COLOURS})`;
}

function fillColour(place: number): string {
  return `var(--s${place % COLOURS})`;
}

export function Sign({ x, y, place, letter, hollow = false }: SignProps) {
  const shape = SHAPES[place % SHAPES.length];
  return (
    <g class="sign" transform={`translate(${px(x)} ${px(y)})`}>
      <path d={shape} style={{ fill: 'none', stroke: 'var(--ground)' }} stroke-width="4.25" />
      <path
        d={shape}
        style={{ fill: hollow ? 'var(--ground)' : fillColour(place), stroke: lineColour(place) }}
        stroke-width={hollow ? 1.75 : 1.25}
      />
      <text
        class="letter"
        y={place % SHAPES.length === TRIANGLE ? 4.5 : 3.5}
        text-anchor="middle"
        style={{ fill: hollow ? 'var(--ink)' : `var(--t${place % COLOURS})` }}
      >
        {letter}
      </text>
    </g>
  );
}

/** Its letter is lower. */
const TRIANGLE = 2;

/** Shapes of about the same area: circle, square, triangle, diamond, hexagon. */
const SHAPES = [
  'M-7 0a7 7 0 1 0 14 0a7 7 0 1 0 -14 0z',
  'M-6.5 -6.5h13v13h-13z',
  'M0 -9.5l9 15h-18z',
  'M0 -9l9 9l-9 9l-9 -9z',
  'M-7.5 0l3.75 -6.5h7.5l3.75 6.5l-3.75 6.5h-7.5z',
] as const;

/** The first letter of each place, or its number if two have the same; none if there is one place only. */
export function lettersOf(places: readonly TargetPlace[]): readonly string[] {
  const first = places.map(({ brief }) => brief.slice(0, 1).toUpperCase());
  if (first.length === 1) return first;
  const areTheirOwn = new Set(first).size === first.length && !first.includes('');
  return areTheirOwn ? first : first.map((_, k) => String(k + 1));
}
