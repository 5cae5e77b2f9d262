/** A mount with its name and its turns in words: which screw to turn, in which direction, how far. */
import type { ScrewsFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import { LETTER } from '../short.ts';
import { PlateIn, plateHeight, viewpoint } from './plate.tsx';
import { mountInWords, turnInFull } from './words.ts';

/** The properties of `Screws`. */
export interface ScrewsProps {
  readonly figure: ScrewsFigure;
  /** Pixels. */
  readonly width: number;
  readonly style?: string | undefined;
}

/** Pixels. */
const ROW = 17;
const EDGE = 10;
const HEAD = 26;
const WIDEST = 280;

/** The face of a mount with its screws. */
export function Screws({ figure, width, style }: ScrewsProps) {
  const { part, screws } = figure;
  const plate = Math.min(width - 2 * EDGE, WIDEST);
  const below = HEAD + plateHeight(figure, plate);
  const turned = screws.filter(({ turns }) => turns !== 0);
  const rows =
    turned.length > 0
      ? turned.flatMap((screw) => inRows(turnInFull(screw, figure), (width - 2 * EDGE) / LETTER.plain))
      : ['nothing to turn now'];
  const height = below + rows.length * ROW + EDGE;
  const title = `Screws of ${part}, ${viewpoint(figure)}`;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={width}
      height={px(height)}
      viewBox={`0 0 ${width} ${px(height)}`}
      role="img"
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{mountInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={width} height={px(height)} rx="6" style={{ fill: 'var(--paper)' }} />}
      <text x={EDGE} y="17">
        <tspan class="name">{part}</tspan>
        <tspan class="small pale">{`  ${viewpoint(figure)}`}</tspan>
      </text>
      <g transform={`translate(${px((width - plate) / 2)} ${HEAD})`}>
        <PlateIn figure={figure} width={plate} />
      </g>
      {rows.map((row, k) => (
        <text key={k} class="small" x={EDGE} y={px(below + (k + 1) * ROW - 2)}>
          {row}
        </text>
      ))}
    </svg>
  );
}

/** If the text is too long for one row, the rim's travel goes to a second. */
function inRows(text: string, letters: number): readonly string[] {
  return text.length <= letters ? [text] : text.split('; ');
}
