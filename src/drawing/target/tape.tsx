/** The tape: a grid in the machine's units, the aperture, the limit, and the names of its sides. */
import { lengthsIn, type TargetFigure, type Units } from '../../model/index.ts';
import { px } from '../number.ts';
import { sideInWords, sidesOf, type Side } from '../sides.ts';
import type { TapeScale } from './scale.ts';

export interface TapeProps {
  readonly figure: TargetFigure;
  readonly scale: TapeScale;
  readonly behind: boolean;
}

export function Tape({
  figure: {
    aperture,
    limit,
    frame: { units },
  },
  scale,
}: TapeProps) {
  const {
    centre: { x, y },
    radius,
    per,
    reach,
  } = scale;
  const apertureRadius = (aperture / 2) * per;
  return (
    <g>
      <circle cx={x} cy={y} r={radius} style={{ fill: 'var(--ground)' }} />
      {limit !== undefined && limit <= reach && (
        <circle cx={x} cy={y} r={px(limit * per)} style={{ fill: 'var(--allowed)' }} />
      )}
      <Grid scale={scale} units={units} />
      {limit !== undefined && limit <= reach && (
        <circle class="ink" cx={x} cy={y} r={px(limit * per)} stroke-dasharray="5 3" />
      )}
      {apertureRadius <= radius + 1 && <circle class="ink" cx={x} cy={y} r={px(apertureRadius)} stroke-width="1.8" />}
    </g>
  );
}

/** Minimum distance of grid lines, pixels. */
const CLOSEST = 7;

/** The finest grid that is not too dense; the axes are darker. */
function Grid({
  scale: {
    centre: { x, y },
    radius,
    per,
    reach,
  },
  units,
}: {
  readonly scale: TapeScale;
  readonly units: Units;
}) {
  const step = gridStep(per, units);
  const count = Math.floor(reach / step);
  const lines = Array.from({ length: 2 * count + 1 }, (_, k) => (k - count) * step).filter((at) => at !== 0);
  const half = (at: number) => Math.sqrt(Math.max(0, radius ** 2 - (at * per) ** 2));
  const path = lines
    .map(
      (at) =>
        `M${px(x + at * per)} ${px(y - half(at))}v${px(2 * half(at))}M${px(x - half(at))} ${px(y + at * per)}h${px(2 * half(at))}`,
    )
    .join('');
  return (
    <g>
      <path class="line" d={path} stroke-width="0.7" />
      <path
        d={`M${x} ${px(y - radius)}v${px(2 * radius)}M${px(x - radius)} ${y}h${px(2 * radius)}`}
        style={{ stroke: 'var(--pale)', fill: 'none' }}
        stroke-width="0.7"
      />
    </g>
  );
}

/** Distance of the grid lines, mm. */
export function gridStep(per: number, units: Units): number {
  const { grids } = lengthsIn(units);
  return grids.find((mm) => mm * per >= CLOSEST) ?? grids.at(-1)!;
}

export function Sides({
  figure: { frame },
  scale: {
    centre: { x, y },
    radius,
  },
  behind,
}: TapeProps) {
  const sides = sidesOf(frame, behind);
  const words = (side: Side) => sideInWords(side, frame.runs);
  return (
    <g>
      <text x={x} y={y - radius - 7} text-anchor="middle">
        {words(sides.top).join(', ')}
      </text>
      <text x={x} y={y + radius + 16} text-anchor="middle">
        {words(sides.bottom).join(', ')}
      </text>
      <Stacked words={words(sides.right)} x={x + radius + 5} y={y} anchor="start" />
      <Stacked words={words(sides.left)} x={x - radius - 5} y={y} anchor="end" />
    </g>
  );
}

function Stacked({
  words,
  x,
  y,
  anchor,
}: {
  readonly words: readonly string[];
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'end';
}) {
  const [first, ...rest] = words.flatMap((word) => word.split(' '));
  return (
    <text x={x} y={y + 4} text-anchor={anchor}>
      {first}
      {rest.map((word, k) => (
        <tspan key={word} class="small" x={x} dy={k === 0 ? 14 : 12}>
          {word}
        </tspan>
      ))}
    </text>
  );
}
