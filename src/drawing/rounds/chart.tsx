/** One measure over the rounds: a point each, twice its standard uncertainty as a bar, the allowed part tinted. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Amount, RoundPoint } from '../../model/index.ts';
import { mm, px } from '../number.ts';

export interface ChartProps {
  readonly of: 'centre' | 'spread';
  readonly rounds: readonly RoundPoint[];
  /** mm */
  readonly limit: number | undefined;
  /** Pixels across of the k-th round. */
  at(k: number): number;
  readonly step: number;
  readonly box: { readonly left: number; readonly right: number; readonly top: number; readonly height: number };
}

interface Placed {
  readonly amount: Amount;
  readonly round: RoundPoint;
  readonly k: number;
}

/** Room above the highest for its name, in pixels. */
const NAME = 18;
/** Between rounds closer than this only the last value is written out. */
const WRITTEN = 34;

export function Chart({ of, rounds, limit, at, step, box: { left, right, top, height } }: ChartProps) {
  const placed = rounds.flatMap((round, k): Placed[] => (round[of] ? [{ amount: round[of], round, k }] : []));
  const most = Math.max(limit ?? 0, ...placed.map(({ amount: { value, u } }) => value + 2 * u), 0.5);
  const y = scaleLinear([0, most * 1.05], [top + height, top + NAME]);
  const sessions = rounds.flatMap((round, k) => (k > 0 && rounds[k - 1]!.session !== round.session ? [k] : []));
  const runs = [0, ...sessions].map((from, k) => placed.filter((one) => one.k >= from && one.k < (sessions[k] ?? Infinity)));
  const trail = line<Placed>(({ k }) => px(at(k)), ({ amount }) => px(y(amount.value)));
  return (
    <g>
      <rect x={left} y={top + NAME} width={px(right - left)} height={height - NAME} style={{ fill: 'var(--ground)' }} />
      {limit !== undefined && <rect x={left} y={px(y(limit))} width={px(right - left)} height={px(y(0) - y(limit))} style={{ fill: 'var(--allowed)' }} />}
      {y.ticks(3).map((tick) => (
        <g key={tick}>
          <path class="line" d={`M${left} ${px(y(tick))}H${px(right)}`} />
          <text class="small" x={left - 6} y={px(y(tick) + 4)} text-anchor="end">{mm(tick)}</text>
        </g>
      ))}
      {limit !== undefined && <path class="ink" d={`M${left} ${px(y(limit))}H${px(right)}`} stroke-dasharray="5 3" />}
      <text class="small" x={left} y={top + 12}>{`${of}, mm${limit === undefined ? '' : `; limit ${mm(limit)}, dashed`}`}</text>
      {sessions.map((k) => <path key={k} d={`M${px(at(k) - step / 2)} ${top + NAME}V${top + height}`} style={{ stroke: 'var(--pale)' }} stroke-dasharray="1 3" />)}
      {runs.map((run, k) => <path key={k} d={trail(run) ?? ''} style={{ stroke: 'var(--pale)', fill: 'none' }} />)}
      {placed.map((one) => <Point key={one.k} {...one} x={at(one.k)} y={y} top={top + NAME + 9} label={step >= WRITTEN || one === placed.at(-1)} />)}
      {rounds.map(({ missed }, k) => missed > 0 && <path key={k} d={`M${px(at(k) - 4)} ${top + NAME + 4}l8 8m0 -8l-8 8`} style={{ stroke: 'var(--lost)', fill: 'none' }} stroke-width="1.8" />)}
    </g>
  );
}

interface PointProps extends Placed {
  readonly x: number;
  readonly y: (value: number) => number;
  /** Its value is written no higher, lest it lie on the name. */
  readonly top: number;
  readonly label: boolean;
}

function Point({ amount: { value, u }, round, x, y, top, label }: PointProps) {
  const look = round.state === 'within' ? { fill: 'var(--ink)' } : { fill: 'var(--ground)' };
  return (
    <g>
      <path class="ink" d={`M${px(x)} ${px(y(value + 2 * u))}V${px(y(Math.max(0, value - 2 * u)))}`} />
      <circle class="ink" cx={px(x)} cy={px(y(value))} r="4" style={look} stroke-width="1.5" />
      {label && <text class="small" x={px(x + 6)} y={px(Math.max(top, y(value) - 6))} style={{ 'paint-order': 'stroke', stroke: 'var(--ground)', 'stroke-width': 3 }}>{value.toFixed(1)}</text>}
    </g>
  );
}
