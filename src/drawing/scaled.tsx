/** What the charts of a station's centre and spread stand on: the ground, what is allowed, the scale, the limit. */
import { mm, px } from './number.ts';

/** Room above the highest for its name, in pixels. */
export const NAME = 18;

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly height: number;
}

interface ScaledProps {
  readonly box: Box;
  readonly y: { (value: number): number; ticks(count: number): number[] };
  /** mm */
  readonly limit: number | undefined;
}

export function Ground({ box: { left, right, top, height }, y, limit }: ScaledProps) {
  return (
    <>
      <rect x={left} y={top + NAME} width={px(right - left)} height={height - NAME} style={{ fill: 'var(--ground)' }} />
      {limit !== undefined && <rect x={left} y={px(y(limit))} width={px(right - left)} height={px(y(0) - y(limit))} style={{ fill: 'var(--allowed)' }} />}
      {y.ticks(3).map((tick) => (
        <g key={tick}>
          <path class="line" d={`M${left} ${px(y(tick))}H${px(right)}`} />
          <text class="small" x={left - 6} y={px(y(tick) + 4)} text-anchor="end">{mm(tick)}</text>
        </g>
      ))}
    </>
  );
}

/** The limit as a line, and what is drawn by name. */
export function Limit({ of, box: { left, right, top }, y, limit }: ScaledProps & { readonly of: 'centre' | 'spread' }) {
  return (
    <>
      {limit !== undefined && <path class="ink" d={`M${left} ${px(y(limit))}H${px(right)}`} stroke-dasharray="5 3" />}
      <text class="small" x={left} y={top + 12}>{`${of}, mm${limit === undefined ? '' : `; limit ${mm(limit)}, dashed`}`}</text>
    </>
  );
}
