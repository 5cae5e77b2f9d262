/** One measure over the visits: as found and as left, 95 % as a bar, the allowed range tinted; and the forecast. */
import type { Amount, Band, VisitsFigure } from '../../model/index.ts';
import { linear } from '../linear.ts';
import { px } from '../number.ts';
import { areaBetween } from '../outline.ts';
import { Ground, Limit, NAME, type Box } from '../scaled.tsx';
import type { Calendar } from './calendar.ts';
import { Both, AsFound, AsLeft } from './signs.tsx';

export const AHEAD = 'var(--in)';

export interface ChartProps {
  readonly of: 'centre' | 'spread';
  readonly figure: VisitsFigure;
  readonly days: Calendar;
  readonly box: Box;
}

/** Coverage factor for 95 % of a normal distribution. */
const SURE = 1.96;
/** Maximum height of the forecast band, relative to the limit or the largest reading. */
const HIGHEST = 1.25;

export function Chart({ of, figure: { visits, limits, ahead, unsure, units }, days, box }: ChartProps) {
  const { top, height } = box;
  const limit = limits[of];
  const band = of === 'centre' ? ahead : [];
  const amounts = visits
    .flatMap(({ found, left: last }) => [found?.[of], last[of]])
    .filter((amount) => amount !== undefined);
  const read = Math.max(limit ?? 0, ...amounts.map(({ value, u }) => value + SURE * u), 0.5);
  const most = Math.max(read, Math.min(HIGHEST * read, ...band.map(({ most: upper }) => upper)));
  const y = linear([0, most * 1.05], [top + height, top + NAME], true);
  return (
    <g>
      <Ground box={box} y={y} limit={limit} units={units} />
      <Ahead band={band} isEnd={unsure !== undefined} days={days} y={y} top={top + NAME} />
      <Limit of={of} box={box} y={y} limit={limit} units={units} />
      {visits.map((visit, k) => (
        <Drift
          key={k}
          to={(visit.found ?? visit.left)[of]}
          toX={visit.found ? days.found(k) : days.left(k)}
          {...before(visits, visit.from, of, days)}
          y={y}
        />
      ))}
      {visits.map((visit, k) => (
        <g key={k}>
          {visit.found?.[of] && visit.left[of] && (
            <path
              d={`M${px(days.found(k))} ${px(y(visit.found[of].value))}L${px(days.left(k))} ${px(y(visit.left[of].value))}`}
              style={{ stroke: 'var(--pale)' }}
              stroke-dasharray="2 2"
            />
          )}
          {visit.found?.[of] && <Bar x={days.found(k)} y={y} {...visit.found[of]} />}
          {visit.left[of] && <Bar x={days.left(k)} y={y} {...visit.left[of]} />}
          {visit.found?.[of] && <AsFound x={days.found(k)} y={y(visit.found[of].value)} />}
          {visit.left[of] &&
            (visit.found ? (
              <AsLeft x={days.left(k)} y={y(visit.left[of].value)} />
            ) : (
              <Both x={days.left(k)} y={y(visit.left[of].value)} />
            ))}
          {visit.found !== undefined && visit.found.missed > 0 && <Missed x={days.found(k)} y={top + NAME + 8} />}
          {visit.left.missed > 0 && <Missed x={days.left(k)} y={top + NAME + 8} />}
        </g>
      ))}
    </g>
  );
}

/** As left in the visit from which it drifted. */
function before(visits: VisitsFigure['visits'], from: number | undefined, of: 'centre' | 'spread', days: Calendar) {
  const amount = from === undefined ? undefined : visits[from]!.left[of];
  return { from: amount, fromX: amount === undefined ? 0 : days.left(from!) };
}

interface DriftProps {
  readonly from: Amount | undefined;
  readonly fromX: number;
  readonly to: Amount | undefined;
  readonly toX: number;
  y(value: number): number;
}

/** Nothing was moved in between. */
function Drift({ from, fromX, to, toX, y }: DriftProps) {
  return from && to ? (
    <path class="ink" d={`M${px(fromX)} ${px(y(from.value))}L${px(toX)} ${px(y(to.value))}`} stroke-width="1.2" />
  ) : null;
}

function Bar({ value, u, x, y }: Amount & { readonly x: number; y(value: number): number }) {
  const [high, low] = [y(value + SURE * u), y(Math.max(0, value - SURE * u))];
  return (
    <path class="ink" d={`M${px(x)} ${px(high)}V${px(low)}M${px(x - 2.5)} ${px(high)}h5M${px(x - 2.5)} ${px(low)}h5`} />
  );
}

export function Missed({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <path
      d={`M${px(x - 4)} ${px(y - 4)}l8 8m0 -8l-8 8`}
      style={{ stroke: 'var(--outside)', fill: 'none' }}
      stroke-width="1.8"
    />
  );
}

interface AheadProps {
  readonly band: readonly Band[];
  /** From its last day on the probability of being within is too low. */
  readonly isEnd: boolean;
  readonly days: Calendar;
  readonly top: number;
  y(value: number): number;
}

/** One day is no band: only the day is marked. */
function Ahead({ band, isEnd, days, y, top }: AheadProps) {
  const placed = band.flatMap(({ days: later, least, most }) => {
    const x = days.ahead(later);
    return x === undefined ? [] : [{ x, least, most }];
  });
  const last = placed.at(-1);
  return (
    <g>
      {placed.length > 1 && (
        <path
          d={areaBetween(
            placed.map(({ x, most }) => ({ x, y: y(most) })),
            placed.map(({ x, least }) => ({ x, y: y(least) })),
          )}
          style={{ fill: AHEAD, stroke: AHEAD }}
          fill-opacity="0.3"
          stroke-width="0.8"
        />
      )}
      {isEnd && last && (
        <path
          d={`M${px(last.x)} ${px(y(0))}V${top}`}
          style={{ stroke: 'var(--ink)' }}
          stroke-dasharray="1 3"
          stroke-width="1.4"
        />
      )}
    </g>
  );
}
