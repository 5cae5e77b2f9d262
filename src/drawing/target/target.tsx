/** A station's tape with its legend, as one picture: for a hover, a notebook, a record, and a file. */
import type { TargetFigure, TextPlace } from '../../model/index.ts';
import { Legend, ROW, rowsOf } from './legend.tsx';
import { lettersOf } from '../sign.tsx';
import type { TapeWindow } from './scale.ts';
import { tapeHeight, TapeIn, titleOf } from './tape.tsx';
import { targetInWords } from './words.ts';

/** The properties of `Target`. */
export interface TargetProps {
  readonly figure: TargetFigure;
  /**
   * Pixels: of the whole with the legend below, of the tape alone with the legend beside it. The size of letters is
   * constant.
   */
  readonly width: number;
  readonly legend?: 'below' | 'beside';
  /** The part of the tape that is drawn; absent: all that matters. */
  readonly window?: TapeWindow | undefined;
  readonly behind?: boolean;
  readonly style?: string | undefined;
  readonly selected?: TextPlace | undefined;
  readonly onSelect?: ((mark: TextPlace) => void) | undefined;
}

/** Pixels: the width of two carriages with their ends in a legend. */
const BESIDE = 230;
const EDGE = 10;

/** A station's tape with its marks and the legend. */
export function Target({ figure, width, legend = 'below', style, behind = false, ...tape }: TargetProps) {
  const side = width - 2 * EDGE;
  const bottom = tapeHeight(side) + EDGE / 2;
  const rows = rowsOf(figure).length;
  const size =
    legend === 'beside'
      ? { width: width + BESIDE, height: Math.max(bottom + EDGE, rows * ROW + 2 * EDGE) }
      : { width, height: bottom + rows * ROW + EDGE };
  const at = legend === 'beside' ? { x: width, y: EDGE + ROW } : { x: EDGE, y: bottom + ROW };
  const title = titleOf(figure, behind);
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={size.width}
      height={size.height}
      viewBox={`0 0 ${size.width} ${size.height}`}
      role={tape.onSelect ? 'group' : 'img'}
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{targetInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={size.width} height={size.height} rx="6" style={{ fill: 'var(--paper)' }} />}
      <g transform={`translate(${EDGE} ${EDGE / 2})`}>
        <TapeIn figure={figure} size={side} behind={behind} {...tape} />
      </g>
      <Legend
        figure={figure}
        letters={lettersOf(figure.places)}
        at={at}
        width={legend === 'beside' ? BESIDE - EDGE : width - 2 * EDGE}
        behind={behind}
      />
    </svg>
  );
}
