/** The true utilisation of the worst limit over tapes shot: the learner's way solid, the shortest dashed. */
import type { ClosingPoint, ClosingSheet } from '../../model/index.ts';
import { linear, type Linear } from '../linear.ts';
import { px } from '../number.ts';

/** The properties of `Ways`. */
export interface WaysProps {
  readonly sheet: ClosingSheet;
  /** Pixels. */
  readonly width: number;
}

const HEIGHT = 190;
const BOX = { left: 34, right: 74, top: 24, bottom: 34 } as const;
/** What is further off is drawn at the upper edge. */
const MOST = 8;

/** Both ways over the same tapes. */
export function Ways({ sheet: { yours, shortest, costly }, width }: WaysProps) {
  const tapes = Math.max(4, ...[...yours, ...shortest].map((point) => point.tapes));
  const most = Math.min(MOST, Math.max(2, ...[...yours, ...shortest].map(({ worst }) => worst)));
  const x = linear([0, tapes], [BOX.left, width - BOX.right]);
  const y = linear([0, most], [HEIGHT - BOX.bottom, BOX.top]);
  const at = ({ tapes: k, worst }: ClosingPoint) => ({ x: px(x(k)), y: px(y(Math.min(most, worst))) });
  const way = (points: readonly ClosingPoint[]) =>
    points.map((point, k) => `${k === 0 ? 'M' : 'L'}${at(point).x} ${at(point).y}`).join('');
  const [last, best] = [yours.at(-1), shortest.at(-1)];
  const costlyAt = costly && yours.find((point) => point.tapes >= costly.tapes);
  return (
    <svg class="figure" width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img">
      <title>Your way and the shortest: the worst limit by tapes shot</title>
      <Axes x={x} y={y} width={width} />
      <path class="ink" d={way(shortest)} stroke-width="1.5" stroke-dasharray="5 3.5" />
      <path class="ink" d={way(yours)} stroke-width="2" />
      {shortest.map((point, k) => (
        <path key={k} class="ink" d={`M${at(point).x - 3} ${at(point).y - 3}l6 6m0 -6l-6 6`} stroke-width="1.25" />
      ))}
      {yours.map((point, k) => (
        <circle
          key={k}
          class="ink"
          cx={at(point).x}
          cy={at(point).y}
          r="4"
          stroke-width="1.5"
          style={{ fill: point.worst <= 1 ? 'var(--ink)' : 'var(--paper)' }}
        />
      ))}
      {costly && costlyAt && (
        <text class="small" x={at(costlyAt).x + 8} y={at(costlyAt).y - 8}>
          {costly.say}
        </text>
      )}
      {best && (
        <text class="small" x={at(best).x + 7} y={at(best).y + 14}>
          {`shortest, ${best.tapes}`}
        </text>
      )}
      {last && (
        <text class="small name" x={at(last).x + 7} y={at(last).y - 6}>
          {`yours, ${last.tapes}`}
        </text>
      )}
    </svg>
  );
}

interface AxesProps {
  readonly x: Linear;
  readonly y: Linear;
  readonly width: number;
}

function Axes({ x, y, width }: AxesProps) {
  return (
    <g>
      <rect
        x={BOX.left}
        y={px(y(1))}
        width={px(width - BOX.right - BOX.left)}
        height={px(y(0) - y(1))}
        style={{ fill: 'var(--allowed)' }}
      />
      {ticksOf(y, 4).map((tick) => (
        <text key={tick} class="small" x={BOX.left - 6} y={px(y(tick) + 4)} text-anchor="end">
          {tick}
        </text>
      ))}
      {ticksOf(x, 6).map((tick) => (
        <text key={tick} class="small" x={px(x(tick))} y={HEIGHT - BOX.bottom + 15} text-anchor="middle">
          {tick}
        </text>
      ))}
      <text class="small pale" x={0} y={12}>
        worst limit, in limits
      </text>
      <text class="small pale" x={BOX.left} y={HEIGHT - 4}>
        tapes shot
      </text>
      <text class="small" x={width - BOX.right + 6} y={px(y(1) + 4)}>
        limit
      </text>
      <path class="ink" d={`M${BOX.left} ${px(y(1))}H${px(width - BOX.right)}`} stroke-width="1.25" />
    </g>
  );
}

/** Whole numbers from 0, some `count` of them. */
function ticksOf(scale: Linear, count: number): number[] {
  const most = scale.domain()[1];
  const step = STEPS.find((one) => most / one <= count) ?? Math.ceil(most / count);
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, k) => k * step);
}

const STEPS = [1, 2, 5, 10, 20, 50];
