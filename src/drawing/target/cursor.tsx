/** The mark that is being read: hair lines to the edges, a box as large as the reading step, and what would be logged. */
import { px } from '../number.ts';
import { lineColour } from '../sign.tsx';
import { LETTER } from '../short.ts';
import type { OnTape, TapeScale } from './scale.ts';

/** The mark under the pointer or the keys. */
export interface TapeCursor {
  readonly at: OnTape;
  /** The step to which it snaps, mm. */
  readonly step: number;
  readonly place: number;
  /** `2.5 right 3.0 down`, and `machine left · step 0.5`. */
  readonly words: readonly [reading: string, more: string];
}

/** Pixels: the smallest box, the gap around it, and the tag. */
const SMALLEST = 12;
const GAP = 4;
const TAG = { height: 40, padding: 8, away: 18 };

export function Cursor({
  cursor: { at, step, place, words },
  scale,
}: {
  readonly cursor: TapeCursor;
  readonly scale: TapeScale;
}) {
  const { x, y } = scale.at(at);
  const { size } = scale;
  const half = Math.max(SMALLEST, step * scale.per) / 2;
  const free = half + GAP;
  const width = Math.max(words[0].length * LETTER.bold * 1.08, words[1].length * LETTER.plain) + 2 * TAG.padding;
  const left = Math.min(Math.max(4, x - width - TAG.away), size - width - 4);
  const isBelow = y < size / 2;
  const beside = x > size / 2 ? left : Math.min(Math.max(4, x + TAG.away), size - width - 4);
  const top = isBelow ? y + half + TAG.away : y - half - TAG.away - TAG.height;
  const tag = { x: beside, y: Math.min(Math.max(4, top), size - TAG.height - 4) };
  return (
    <g class="cursor" style={{ stroke: lineColour(place), fill: 'none' }} stroke-width="1.5" pointer-events="none">
      <path
        d={`M0 ${px(y)}H${px(Math.max(0, x - free))}M${px(Math.min(size, x + free))} ${px(y)}H${size}M${px(x)} 0V${px(Math.max(0, y - free))}M${px(x)} ${px(Math.min(size, y + free))}V${size}`}
      />
      <rect x={px(x - half)} y={px(y - half)} width={px(2 * half)} height={px(2 * half)} />
      <circle cx={px(x)} cy={px(y)} r="1.6" style={{ fill: lineColour(place), stroke: 'none' }} />
      <g transform={`translate(${px(tag.x)} ${px(tag.y)})`} class="tag">
        <rect
          width={px(width)}
          height={TAG.height}
          rx="2"
          style={{ fill: 'var(--paper)', stroke: 'var(--ink)' }}
          stroke-width="1.25"
        />
        <text class="name reading" x={TAG.padding} y="17" stroke="none">
          {words[0]}
        </text>
        <text class="small pale" x={TAG.padding} y="32" stroke="none">
          {words[1]}
        </text>
      </g>
    </g>
  );
}
