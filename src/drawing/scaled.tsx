/** Common parts of the charts of a station's centre and spread: background, allowed range, scale, limit. */
import { lengthsIn, type Units } from '../model/index.ts';
import { px } from './number.ts';

/** Height for the chart's name, pixels. */
export const NAME = 18;

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly height: number;
}

interface ScaledProps {
  readonly box: Box;
  readonly y: { (value: number): number; domain(): readonly number[] };
  readonly units: Units;
  /** mm */
  readonly limit: number | undefined;
}

/** Approximate number of divisions. */
const DIVISIONS = 3;

/** mm, from 0, in the readable step whose ratio to a third of the scale is nearest to 1. */
function ticksOf({ y, units }: Pick<ScaledProps, 'y' | 'units'>): number[] {
  const most = y.domain()[1]!;
  const off = (step: number) => Math.abs(Math.log((step * DIVISIONS) / most));
  const step = lengthsIn(units).divisions.reduce((best, one) => (off(one) < off(best) ? one : best));
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, k) => k * step);
}

export function Ground({ box: { left, right, top, height }, y, limit, units }: ScaledProps) {
  return (
    <>
      <rect x={left} y={top + NAME} width={px(right - left)} height={height - NAME} style={{ fill: 'var(--ground)' }} />
      {limit !== undefined && (
        <rect
          x={left}
          y={px(y(limit))}
          width={px(right - left)}
          height={px(y(0) - y(limit))}
          style={{ fill: 'var(--allowed)' }}
        />
      )}
      {ticksOf({ y, units }).map((tick) => (
        <g key={tick}>
          <path class="line" d={`M${left} ${px(y(tick))}H${px(right)}`} />
          <text class="small" x={left - 6} y={px(y(tick) + 4)} text-anchor="end">
            {lengthsIn(units).tick(tick)}
          </text>
        </g>
      ))}
    </>
  );
}

/** The limit as a line, and the name of the measure. */
export function Limit({
  of,
  box: { left, right, top },
  y,
  limit,
  units,
}: ScaledProps & { readonly of: 'centre' | 'spread' }) {
  const { unit, given } = lengthsIn(units);
  return (
    <>
      {limit !== undefined && <path class="ink" d={`M${left} ${px(y(limit))}H${px(right)}`} stroke-dasharray="5 3" />}
      <text
        class="small"
        x={left}
        y={top + 12}
      >{`${of}, ${unit}${limit === undefined ? '' : `; limit ${given(limit)}, dashed`}`}</text>
    </>
  );
}
