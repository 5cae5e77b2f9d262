/**
 * A station's tape as one sees it looking along the beam, or from behind: the hole, the limit, the beam at every place of
 * the carriages, what came before and what will come.
 */
import type { TargetFigure, TextPlace } from '../../model/index.ts';
import { px } from '../number.ts';
import { lettersOf } from '../sign.tsx';
import { Footprint } from './footprint.tsx';
import { Legend, ROW, rowsOf } from './legend.tsx';
import { Marks } from './marks.tsx';
import type { Spot } from '../outline.ts';
import { MARGIN, tapeScale, type OnTape } from './scale.ts';
import { gridStep, Sides, Tape } from './tape.tsx';
import { targetInWords } from './words.ts';

export interface TargetProps {
  readonly figure: TargetFigure;
  /** Pixels: of the whole with the legend below, of the tape alone with the legend beside it. Letters keep their size. */
  readonly width: number;
  readonly legend?: 'below' | 'beside';
  readonly behind?: boolean;
  readonly style?: string | undefined;
  readonly selected?: TextPlace | undefined;
  readonly onSelect?: ((mark: TextPlace) => void) | undefined;
  /** Where a mark is about to be placed, mm. */
  readonly cursor?: OnTape | undefined;
}

/** Pixels: two carriages with their ends, in the letters of a legend. */
const BESIDE = 230;
const EDGE = 10;

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
  const whole =
    legend === 'beside'
      ? { width: width + BESIDE, height: Math.max(tapeHeight, rows * ROW + 2 * EDGE) }
      : { width, height: tapeHeight + rows * ROW + EDGE };
  const at = legend === 'beside' ? { x: width, y: EDGE + ROW } : { x: EDGE, y: tapeHeight + ROW };
  const looks = behind ? 'seen from behind, looking against the beam' : 'seen along the beam';
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={whole.width}
      height={whole.height}
      viewBox={`0 0 ${whole.width} ${whole.height}`}
      role={onSelect ? 'group' : 'img'}
      aria-label={`Tape on ${figure.station}, ${looks}`}
    >
      <title>{`Tape on ${figure.station}, ${looks}`}</title>
      <desc>{targetInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && (
        <rect width={whole.width} height={whole.height} rx="6" style={{ fill: 'var(--paper)' }} />
      )}
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

function Cursor({ x, y }: Spot) {
  return (
    <path
      class="ink cursor"
      d={`M${px(x - 14)} ${px(y)}h10m8 0h10M${px(x)} ${px(y - 14)}v10m0 8v10`}
      stroke-width="2"
    />
  );
}
