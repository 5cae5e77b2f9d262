/** Centre and spread of a station's marks over the dates of the visits, as found and as left, and the forecast. */
import type { VisitsFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import { LETTER } from '../short.ts';
import { calendar, type Calendar } from './calendar.ts';
import { AHEAD, Chart, Missed } from './chart.tsx';
import { Both, AsFound, AsLeft } from './signs.tsx';
import { linesOf, visitsInWords } from './words.ts';

/** The properties of `Visits`. */
export interface VisitsProps {
  readonly figure: VisitsFigure;
  /** Pixels. */
  readonly width: number;
  readonly style?: string | undefined;
}

const EDGE = 10;
const ROW = 16;
const HEAD = 26;
/** Left of the charts, for their scale. */
const SCALE = 34;
const CHART = 98;
const GAP = 8;
/** Below the charts, for the dates; the end of the forecast has a row of its own. */
const FOOT = 24;

/** A station's visits as charts. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one picture, drawn from back to front
export function Visits({ figure, width, style }: VisitsProps) {
  const { station, visits, limits, summary } = figure;
  const charts =
    visits.length === 0
      ? []
      : (['centre', 'spread'] as const).filter(
          (of) => visits.some(({ found, left }) => found?.[of] ?? left[of]) || limits[of] !== undefined,
        );
  const [left, right] = [EDGE + SCALE, width - EDGE];
  const days = calendar(figure, left, right);
  const bottom = HEAD + charts.length * (CHART + GAP);
  const keys = keysOf(figure, days.ahead(0) !== undefined);
  const sentences = linesOf(summary ?? '', (width - 2 * EDGE) / LETTER.plain).filter((line) => line !== '');
  const foot = bottom + FOOT + (days.end ? ROW : 0);
  const height = visits.length === 0 ? HEAD + ROW + EDGE : foot + (keys.length + sentences.length) * ROW + EDGE;
  const title = `${station}, visit by visit`;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{visitsInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={width} height={height} rx="6" style={{ fill: 'var(--paper)' }} />}
      <text class="name" x={EDGE} y="17">
        {title}
      </text>
      {visits.length === 0 && (
        <text class="small" x={EDGE} y={HEAD + ROW - 4}>
          not shot in any visit
        </text>
      )}
      {charts.map((of, k) => (
        <Chart
          key={of}
          of={of}
          figure={figure}
          days={days}
          box={{ left, right, top: HEAD + k * (CHART + GAP), height: CHART }}
        />
      ))}
      {visits.length > 0 && <Dates days={days} y={bottom + 8} />}
      {visits.length > 0 &&
        keys.map((row, k) => (
          <g key={k} transform={`translate(${EDGE} ${foot + k * ROW + 8})`}>
            {row}
          </g>
        ))}
      {visits.length > 0 &&
        sentences.map((line, k) => (
          <text key={k} class="small" x={EDGE} y={foot + (keys.length + k) * ROW + 12}>
            {line}
          </text>
        ))}
    </svg>
  );
}

function Dates({ days: { labels, end }, y }: { readonly days: Calendar; readonly y: number }) {
  return (
    <g>
      {labels.map(({ x, text }, k) => (
        <text key={k} class="small" x={px(x)} y={y} text-anchor="middle">
          {text}
        </text>
      ))}
      {end && (
        <text class="small name" x={px(end.x)} y={y + ROW - 1} text-anchor="middle">
          {end.text}
        </text>
      )}
    </g>
  );
}

/** Only the signs that occur. */
function keysOf({ visits, ahead, confidence }: VisitsFigure, isDated: boolean) {
  const hasAsFound = visits.some(({ found }) => found);
  const isOne = visits.some(({ found }) => !found);
  const isLeftAlone = visits.some(({ from }) => from !== undefined);
  const missed = visits.some(({ found, left }) => left.missed > 0 || (found?.missed ?? 0) > 0);
  return [
    <g key="signs">
      {hasAsFound && <AsFound x={6} y={0} />}
      {hasAsFound && (
        <text class="small" x="16" y="4">
          as found
        </text>
      )}
      {hasAsFound && (
        <g transform="translate(84 0)">
          <AsLeft x={6} y={0} />
          <text class="small" x="16" y="4">
            as left
          </text>
        </g>
      )}
      {isOne && (
        <g transform={`translate(${hasAsFound ? 154 : 0} 0)`}>
          <Both x={6} y={0} />
          <text class="small" x="16" y="4">
            {hasAsFound ? 'both at once' : 'as found and as left'}
          </text>
        </g>
      )}
    </g>,
    <g key="lines">
      <path class="ink" d="M6 -6V6M3.5 -6h5M3.5 6h5" />
      <text class="small" x="16" y="4">
        95 %
      </text>
      {missed && <Missed x={58} y={0} />}
      {missed && (
        <text class="small" x="68" y="4">
          tape missed
        </text>
      )}
      {isLeftAlone && (
        <g transform={`translate(${missed ? 146 : 54} 0)`}>
          <path class="ink" d="M0 0h16" stroke-width="1.2" />
          <text class="small" x="22" y="4">
            not moved
          </text>
        </g>
      )}
    </g>,
    ...(isDated && ahead.length > 1 && confidence !== undefined
      ? [
          <g key="ahead">
            <rect
              x="0"
              y="-5"
              width="12"
              height="10"
              style={{ fill: AHEAD, stroke: AHEAD }}
              fill-opacity="0.3"
              stroke-width="0.8"
            />
            <text
              class="small"
              x="16"
              y="4"
            >{`ahead: ${Math.round(100 * confidence)} % sure to stay below its top`}</text>
          </g>,
        ]
      : []),
  ];
}
