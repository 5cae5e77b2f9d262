/** The legend: signs of the places, and the circles. */
import { lengthsIn, type TargetFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import { LETTER, short } from '../short.ts';
import { Sign } from '../sign.tsx';
import { footprintOf } from './footprint.tsx';
import type { PixelPoint } from '../outline.ts';

export const ROW = 17;

export interface LegendProps {
  readonly figure: TargetFigure;
  readonly letters: readonly string[];
  readonly at: PixelPoint;
  /** Maximum length of a row, pixels. */
  readonly width: number;
  readonly behind: boolean;
}

export function Legend({ figure, letters, at, width, behind }: LegendProps) {
  const rows = rowsOf(figure, behind);
  return (
    <g transform={`translate(${px(at.x)} ${px(at.y)})`}>
      {rows.map((row, k) => (
        <g key={k} transform={`translate(0 ${k * ROW})`}>
          {row.place !== undefined && (
            <g transform="translate(7 -4) scale(0.85)">
              <Sign x={0} y={0} place={row.place} letter={letters[row.place]!} hollow={row.hollow ?? false} />
            </g>
          )}
          {row.look === 'next' && <path d="M3 -8l8 8m0 -8l-8 8" style={{ stroke: 'var(--ink)' }} stroke-width="1.5" />}
          {row.look === 'half' && <path d="M1 -4h12" style={{ stroke: 'var(--ink)' }} stroke-width="1.5" />}
          {row.look === 'found' && <circle cx="7" cy="-4" r="4" class="ink" stroke-width="1.5" />}
          {row.look === 'beam' && <circle cx="7" cy="-4" r="6" style={{ fill: 'var(--ink)' }} fill-opacity="0.15" />}
          {row.look === 'lost' && (
            <rect x="2" y="-9" width="10" height="10" style={{ fill: 'var(--outside)' }} fill-opacity="0.8" />
          )}
          <text x={row.place === undefined && row.look === undefined ? 0 : 19} class={k === 0 ? 'name' : 'small'}>
            {short(row.text, (width - 19) / LETTER.plain)}
          </text>
        </g>
      ))}
    </g>
  );
}

interface Row {
  readonly text: string;
  readonly place?: number;
  readonly hollow?: boolean;
  readonly look?: 'half' | 'next' | 'found' | 'beam' | 'lost';
}

/** The first row is the station. */
export function rowsOf(figure: TargetFigure, behind = false): readonly Row[] {
  const { station, round, rounds, places, marks, halves, missed, expected, frame } = figure;
  const { read } = lengthsIn(frame.units);
  const footprint = footprintOf(figure);
  const missedAt = new Set(missed.map(({ place }) => place));
  const stale = [...marks, ...halves].some(({ age }) => age === 'stale');
  return [
    { text: `${station}${rounds > 1 ? `, round ${round} of ${rounds}` : ''}${behind ? ', seen from behind' : ''}` },
    ...(stale ? [{ text: 'stale: something moved since' }] : []),
    ...places.map(
      ({ brief }, place): Row => ({
        place,
        hollow: stale,
        text: `${brief === '' ? 'one place only' : brief}${missedAt.has(place) ? ': none, missed the tape' : ''}`,
      }),
    ),
    ...(halves.length > 0 ? [{ look: 'half', text: 'one direction read: on this line' } as const] : []),
    ...(marks.some((mark) => mark.age === 'earlier' && mark.round === 1)
      ? [{ look: 'found', text: 'as found, dotted since' } as const]
      : []),
    ...(expected.length > 0 ? [{ look: 'next', text: 'predicted, 95 %' } as const] : []),
    ...(footprint ? [{ look: 'beam', text: `beam ⌀ ${read(footprint.beam)}, at the worst mark` } as const] : []),
    ...(footprint?.isCut ? [{ look: 'lost', text: 'cut off by the aperture' } as const] : []),
  ];
}
