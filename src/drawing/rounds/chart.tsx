/** One measure over the rounds: a point for each, twice its standard uncertainty as a bar, the allowed range tinted. */
import { lengthsIn, type Amount, type RoundPoint, type Units } from '../../model/index.ts';
import { linear } from '../linear.ts';
import { px } from '../number.ts';
import { lineThrough } from '../outline.ts';
import { Ground, Limit, NAME, type Box } from '../scaled.tsx';

export interface ChartProps {
  readonly of: 'centre' | 'spread';
  readonly rounds: readonly RoundPoint[];
  readonly units: Units;
  /** mm */
  readonly limit: number | undefined;
  /** x of the k-th round, pixels. */
  at(k: number): number;
  readonly step: number;
  readonly box: Box;
}

interface Placed {
  readonly amount: Amount;
  readonly round: RoundPoint;
  readonly k: number;
}

/** With less distance between rounds only the last value is printed. */
const WRITTEN = 34;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one picture, drawn from back to front
export function Chart({ of, rounds, units, limit, at, step, box }: ChartProps) {
  const { top, height } = box;
  const placed = rounds.flatMap((round, k): Placed[] => (round[of] ? [{ amount: round[of], round, k }] : []));
  const most = Math.max(limit ?? 0, ...placed.map(({ amount: { value, u } }) => value + 2 * u), 0.5);
  const y = linear([0, most * 1.05], [top + height, top + NAME]);
  const sessions = rounds.flatMap((round, k) => (k > 0 && rounds[k - 1]!.session !== round.session ? [k] : []));
  const runs = [0, ...sessions].map((from, k) =>
    placed.filter((one) => one.k >= from && one.k < (sessions[k] ?? Infinity)),
  );
  return (
    <g>
      <Ground box={box} y={y} limit={limit} units={units} />
      <Limit of={of} box={box} y={y} limit={limit} units={units} />
      {sessions.map((k) => (
        <path
          key={k}
          d={`M${px(at(k) - step / 2)} ${top + NAME}V${top + height}`}
          style={{ stroke: 'var(--pale)' }}
          stroke-dasharray="1 3"
        />
      ))}
      {runs.map((run, k) => (
        <path
          key={k}
          d={lineThrough(run.map((one) => ({ x: at(one.k), y: y(one.amount.value) })))}
          style={{ stroke: 'var(--pale)', fill: 'none' }}
        />
      ))}
      {placed.map((one) => (
        <Point
          key={one.k}
          {...one}
          units={units}
          x={at(one.k)}
          y={y}
          top={top + NAME + 9}
          label={step >= WRITTEN || one === placed.at(-1)}
        />
      ))}
      {rounds.map(
        ({ missed }, k) =>
          missed > 0 && (
            <path
              key={k}
              d={`M${px(at(k) - 4)} ${top + NAME + 4}l8 8m0 -8l-8 8`}
              style={{ stroke: 'var(--outside)', fill: 'none' }}
              stroke-width="1.8"
            />
          ),
      )}
    </g>
  );
}

interface PointProps extends Placed {
  readonly x: number;
  readonly y: (value: number) => number;
  /** Upper bound of the value's text, below the chart's name. */
  readonly top: number;
  readonly label: boolean;
  readonly units: Units;
}

function Point({ amount: { value, u }, round, x, y, top, label, units }: PointProps) {
  const look = round.state === 'within' ? { fill: 'var(--ink)' } : { fill: 'var(--ground)' };
  return (
    <g>
      <path class="ink" d={`M${px(x)} ${px(y(value + 2 * u))}V${px(y(Math.max(0, value - 2 * u)))}`} />
      <circle class="ink" cx={px(x)} cy={px(y(value))} r="4" style={look} stroke-width="1.5" />
      {label && (
        <text
          class="small"
          x={px(x + 6)}
          y={px(Math.max(top, y(value) - 6))}
          style={{ 'paint-order': 'stroke', stroke: 'var(--ground)', 'stroke-width': 3 }}
        >
          {lengthsIn(units).bare(value)}
        </text>
      )}
    </g>
  );
}
