/** A small chart of the beam's clearance in an aperture along a carriage's travel: below zero the beam is clipped. */
import { lengthsIn, type PathPart, type Units } from '../../model/index.ts';
import { linear } from '../linear.ts';
import { px } from '../number.ts';
import { lineThrough } from '../outline.ts';
import { LETTER, short } from '../short.ts';
import { clearanceInWords, leastClearance } from './words.ts';
import { THEN } from './view.tsx';

export const CLEARANCE_ROW = 46;

export interface ClearanceProps {
  readonly part: PathPart;
  readonly isMoved: boolean;
  /** Position of its carriage, mm. */
  readonly leg: number | undefined;
  /** mm, for all charts. */
  readonly range: readonly [least: number, most: number];
  readonly top: number;
  readonly width: number;
}

const LEFT = 74;
const RIGHT = 76;
/** Width of a name, left of the scale. */
const NAME = 50;

type Point = PathPart['clearance']['points'][number];

export function Clearance({
  part: {
    name,
    clearance,
    frame: { units },
  },
  isMoved,
  leg,
  range,
  top,
  width,
}: ClearanceProps) {
  const { points, rides } = clearance;
  const y = linear(range, [top + CLEARANCE_ROW - 8, top + 2]);
  const x = linear([points[0]!.leg, points.at(-1)!.leg], [LEFT, width - RIGHT]);
  const [now, then] = [leastClearance(clearance, 'now'), leastClearance(clearance, 'then')];
  return (
    <g>
      <text class="small name" x="10" y={top + 16}>
        {short(name, NAME / LETTER.bold)}
      </text>
      {rides !== undefined && (
        <text class="small pale" x="10" y={top + 30}>
          {short(rides, NAME / LETTER.plain)}
        </text>
      )}
      <text class="small pale" x={LEFT - 4} y={px(y(0) + 4)} text-anchor="end">
        0
      </text>
      <rect
        x={LEFT}
        y={top + 2}
        width={width - RIGHT - LEFT}
        height={CLEARANCE_ROW - 10}
        style={{ fill: 'var(--ground)' }}
      />
      {range[0] < 0 && (
        <rect
          x={LEFT}
          y={px(y(0))}
          width={width - RIGHT - LEFT}
          height={px(y(range[0]) - y(0))}
          style={{ fill: 'var(--outside)' }}
          fill-opacity="0.25"
        />
      )}
      <path d={`M${LEFT} ${px(y(0))}H${width - RIGHT}`} style={{ stroke: 'var(--pale)' }} />
      {leg !== undefined && rides !== undefined && (
        <path class="line" d={`M${px(x(leg))} ${top + 2}V${top + CLEARANCE_ROW - 8}`} stroke-width="2" />
      )}
      <Line points={points} of="now" x={x} y={y} />
      {isMoved && <Line points={points} of="then" x={x} y={y} />}
      <text class="small" x={width - RIGHT + 6} y={top + 16}>
        {shortClearance(now, units)}
      </text>
      {isMoved && (
        <text
          class="small"
          x={width - RIGHT + 6}
          y={top + 30}
          aria-label={`then ${clearanceInWords(then, units)}`}
        >{`then ${shortClearance(then, units)}`}</text>
      )}
    </g>
  );
}

function shortClearance(least: number | undefined, units: Units): string {
  return least === undefined ? 'missed' : `${least < 0 ? '−' : ''}${lengthsIn(units).bare(Math.abs(least))}`;
}

interface LineProps {
  readonly points: readonly Point[];
  readonly of: 'now' | 'then';
  x(leg: number): number;
  y(clearance: number): number;
}

function Line({ points, of, x, y }: LineProps) {
  const look =
    of === 'now' ? { style: { stroke: 'var(--ink)' } } : { style: { stroke: THEN }, 'stroke-dasharray': '6 3' };
  const [first] = points;
  if (points.length === 1)
    return first![of] === undefined ? null : (
      <path d={`M${px(x(first!.leg) - 5)} ${px(y(first![of]))}h10`} fill="none" stroke-width="2" {...look} />
    );
  const path = lineThrough(
    points.map((point) => (point[of] === undefined ? undefined : { x: x(point.leg), y: y(point[of]) })),
  );
  return <path d={path} fill="none" stroke-width="1.6" {...look} />;
}
