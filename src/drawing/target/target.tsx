/**
 * A station's tape, looking along the beam or from behind: the aperture, the limit, the beam at every place of the
 * carriages, earlier and predicted marks.
 */
import type { TargetFigure, TextPlace } from '../../model/index.ts';
import { px } from '../number.ts';
import { lettersOf } from '../sign.tsx';
import { Footprint } from './footprint.tsx';
import { Legend, ROW, rowsOf } from './legend.tsx';
import { Marks } from './marks.tsx';
import type { PixelPoint } from '../outline.ts';
import { MARGIN, tapeScale, type OnTape } from './scale.ts';
import { gridStep, Sides, Tape } from './tape.tsx';
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
  readonly behind?: boolean;
  readonly style?: string | undefined;
  readonly selected?: TextPlace | undefined;
  readonly onSelect?: ((mark: TextPlace) => void) | undefined;
  /** The place of the cursor for a new mark, mm. */
  readonly cursor?: OnTape | undefined;
}

/** Pixels: the width of two carriages with their ends in a legend. */
const BESIDE = 230;
const EDGE = 10;

/** A station's tape with its marks and the legend. */
export function Target({
  figure,
  width,
  legend = 'below',
  behind = false,
  style,
  selected,
  onSelect,
  cursor,
}: TargetProps) {
  const scale = tapeScale(figure, width, behind);
  const letters = lettersOf(figure.places);
  const grid = gridStep(scale.per, figure.frame.units);
  const tapeHeight = MARGIN.top + 2 * scale.radius + MARGIN.bottom;
  const rows = rowsOf(figure, grid).length;
  const size =
    legend === 'beside'
      ? { width: width + BESIDE, height: Math.max(tapeHeight, rows * ROW + 2 * EDGE) }
      : { width, height: tapeHeight + rows * ROW + EDGE };
  const at = legend === 'beside' ? { x: width, y: EDGE + ROW } : { x: EDGE, y: tapeHeight + ROW };
  const looks = behind ? 'seen from behind, looking against the beam' : 'seen along the beam';
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={size.width}
      height={size.height}
      viewBox={`0 0 ${size.width} ${size.height}`}
      role={onSelect ? 'group' : 'img'}
      aria-label={`Tape on ${figure.station}, ${looks}`}
    >
      <title>{`Tape on ${figure.station}, ${looks}`}</title>
      <desc>{targetInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={size.width} height={size.height} rx="6" style={{ fill: 'var(--paper)' }} />}
      <Tape figure={figure} scale={scale} behind={behind} />
      <Sides figure={figure} scale={scale} behind={behind} />
      <Footprint figure={figure} scale={scale} />
      <Marks figure={figure} scale={scale} behind={behind} letters={letters} selected={selected} onSelect={onSelect} />
      {cursor && <Cursor {...scale.at(cursor)} />}
      <Legend
        figure={figure}
        letters={letters}
        at={at}
        width={legend === 'beside' ? BESIDE - EDGE : width - 2 * EDGE}
        grid={grid}
      />
      {behind && (
        <text class="small pale" x={EDGE} y={tapeHeight - 4}>
          seen from behind
        </text>
      )}
    </svg>
  );
}

function Cursor({ x, y }: PixelPoint) {
  return (
    <path
      class="ink cursor"
      d={`M${px(x - 14)} ${px(y)}h10m8 0h10M${px(x)} ${px(y - 14)}v10m0 8v10`}
      stroke-width="2"
    />
  );
}
