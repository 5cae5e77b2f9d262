/** The sign of a place of the carriages: shape, colour and letter, so that any one of them is sufficient. */
import type { TargetPlace } from '../model/index.ts';
import { px } from './number.ts';
import { letterColour, OKABE_ITO } from './theme.ts';

export interface SignProps {
  readonly x: number;
  readonly y: number;
  readonly place: number;
  readonly letter: string;
  /** Hollow: stale. */
  readonly hollow?: boolean;
}

export function colourOf(place: number): string {
  return OKABE_ITO[place % OKABE_ITO.length]!;
}

export function Sign({ x, y, place, letter, hollow = false }: SignProps) {
  const colour = colourOf(place);
  const look = hollow
    ? { fill: 'var(--ground)', stroke: colour, 'stroke-width': 1.6 }
    : { fill: colour, stroke: 'var(--ground)' };
  return (
    <g transform={`translate(${px(x)} ${px(y)})`}>
      <path d={SHAPES[place % SHAPES.length]} {...look} />
      <text
        class="letter"
        y={place % SHAPES.length === TRIANGLE ? 5 : 3.5}
        text-anchor="middle"
        style={{ fill: hollow ? 'var(--ink)' : letterColour(colour) }}
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

/** The first letter of each place; its number if two have the same. */
export function lettersOf(places: readonly TargetPlace[]): readonly string[] {
  const first = places.map(({ brief }) => brief.slice(0, 1).toUpperCase());
  const own = first.map((letter) => first.filter((other) => other === letter).length === 1);
  return first.map((letter, k) => (letter !== '' && own[k] ? letter : String(k + 1)));
}
