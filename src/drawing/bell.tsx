/** A measured value with its uncertainty against a limit: the bell of the normal distribution, the part within filled. */
import type { BellFigure } from '../model/index.ts';
import { linear } from './linear.ts';

export interface BellProps {
  readonly figure: BellFigure;
  /** Pixels. */
  readonly width: number;
}

const [HEIGHT, AXIS, TOP] = [76, 56, 12];
/** Standard uncertainties that are drawn on either side. */
const SIDES = 3.2;
const POINTS = 64;

export function Bell({ figure: { name, value, u, max, probability, unit, decimals }, width }: BellProps) {
  const from = Math.max(0, Math.min(value, max) - SIDES * u);
  const to = Math.max(value, max) + SIDES * u;
  const x = linear([from, to], [8, width - 8]);
  const y = (at: number) => AXIS - (AXIS - TOP) * Math.exp(-(((at - value) / u) ** 2) / 2);
  const points = (start: number, end: number) =>
    Array.from({ length: POINTS + 1 }, (_, k) => start + ((end - start) * k) / POINTS)
      .map((at) => `${x(at).toFixed(1)} ${y(at).toFixed(1)}`)
      .join('L');
  const share = `${Math.round(100 * probability)} %`;
  const digits = (at: number) => at.toFixed(decimals);
  return (
    <svg
      class="figure"
      width={width}
      height={HEIGHT}
      viewBox={`0 0 ${width} ${HEIGHT}`}
      role="img"
      aria-label={`${name}: ${digits(value)} ± ${digits(u)} ${unit}, limit ${digits(max)}; within: ${share}`}
    >
      {max > from && (
        <path
          d={`M${x(from).toFixed(1)} ${AXIS}L${points(from, max)}L${x(max).toFixed(1)} ${AXIS}z`}
          style={{ fill: 'var(--within)', opacity: 0.35 }}
        />
      )}
      <path class="ink" d={`M${points(from, to)}`} style={{ fill: 'none' }} stroke-width="1.25" />
      <path class="ink" d={`M8 ${AXIS}H${width - 8}`} stroke-width="0.75" />
      <path class="ink" d={`M${x(max).toFixed(1)} ${TOP - 4}V${AXIS + 4}`} stroke-width="2" />
      <text x={x(max) + (x(max) > width - 70 ? -4 : 4)} y={TOP + 4} text-anchor={x(max) > width - 70 ? 'end' : 'start'}>
        {`limit ${digits(max)}`}
      </text>
      <text x={x(from)} y={HEIGHT - 6}>
        {digits(from)}
      </text>
      <text x={x(to)} y={HEIGHT - 6} text-anchor="end">
        {digits(to)}
      </text>
    </svg>
  );
}
