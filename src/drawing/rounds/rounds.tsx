/** Centre and spread of a station's marks, round by round, against their limits. */
import type { RoundPoint, RoundsFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import { LETTER, short } from '../short.ts';
import { Chart } from './chart.tsx';
import { roundsInWords, sessionInWords, sessionLetter } from './words.ts';

/** The properties of `Rounds`. */
export interface RoundsProps {
  readonly figure: RoundsFigure;
  /** Pixels. */
  readonly width: number;
  readonly style?: string | undefined;
}

const EDGE = 10;
const ROW = 17;
const HEAD = 26;
/** Left of the charts, for their scale. */
const SCALE = 34;
const CHART = 104;
const GAP = 12;
/** Below the charts: the rounds and their sessions. */
const FOOT = { rounds: 14, sessions: 20 };
/** Maximum distance between two rounds, pixels. */
const WIDEST = 72;

/** The rounds of a station as charts. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one picture, drawn from back to front
export function Rounds({ figure, width, style }: RoundsProps) {
  const { station, rounds, sessions, limits, units } = figure;
  const charts = (['centre', 'spread'] as const).filter(
    (of) => rounds.some((round) => round[of]) || limits[of] !== undefined,
  );
  const [left, right] = [EDGE + SCALE, width - EDGE];
  const step = Math.min(WIDEST, (right - left) / Math.max(1, rounds.length));
  const at = (k: number) => left + (k + 0.5) * step;
  const bottom = HEAD + charts.length * (CHART + GAP);
  const foot = bottom + FOOT.rounds + (sessions.length > 1 ? FOOT.sessions : 0);
  const height = rounds.length === 0 ? HEAD + ROW + EDGE : foot + (sessions.length + 1) * ROW + EDGE;
  const title = `Rounds on ${station}`;
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
      <desc>{roundsInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={width} height={height} rx="6" style={{ fill: 'var(--paper)' }} />}
      <text class="name" x={EDGE} y="17">
        {title}
      </text>
      {rounds.length === 0 && (
        <text class="small" x={EDGE} y={HEAD + ROW - 4}>
          nothing was shot
        </text>
      )}
      {rounds.length > 0 &&
        charts.map((of, k) => (
          <Chart
            key={of}
            of={of}
            units={units}
            rounds={rounds}
            limit={limits[of]}
            at={at}
            step={step}
            box={{ left, right, top: HEAD + k * (CHART + GAP), height: CHART }}
          />
        ))}
      {rounds.map(({ round }, k) => (
        <text key={k} class="small" x={px(at(k))} y={bottom + 6} text-anchor="middle">
          {round}
        </text>
      ))}
      {rounds.length > 0 && (
        <text class="small pale" x={left - 6} y={bottom + 6} text-anchor="end">
          round
        </text>
      )}
      {sessions.length > 1 &&
        sessions.map((_, k) => (
          <Session key={k} letter={sessionLetter(k)} {...extent(rounds, k, at, step)} y={bottom} />
        ))}
      {rounds.length > 0 && <Signs x={EDGE} y={foot + ROW - 4} missed={rounds.some(({ missed }) => missed > 0)} />}
      {sessions.map((_, k) => (
        <text key={k} class="small" x={EDGE} y={foot + (k + 2) * ROW - 4}>
          {short(sessionInWords(figure, k), (width - 2 * EDGE) / LETTER.plain)}
        </text>
      ))}
    </svg>
  );
}

function extent(
  rounds: readonly RoundPoint[],
  session: number,
  at: (k: number) => number,
  step: number,
): { from: number; to: number } {
  const own = rounds.flatMap((round, k) => (round.session === session ? [at(k)] : []));
  return { from: own[0]! - step / 2, to: own.at(-1)! + step / 2 };
}

/** A bracket under its rounds. */
function Session({
  letter,
  from,
  to,
  y,
}: {
  readonly letter: string;
  readonly from: number;
  readonly to: number;
  readonly y: number;
}) {
  return (
    <g>
      <path d={`M${px(from + 3)} ${y + 12}v3H${px(to - 3)}v-3`} style={{ stroke: 'var(--pale)', fill: 'none' }} />
      <text class="small" x={px((from + to) / 2)} y={y + 27} text-anchor="middle">
        {letter}
      </text>
    </g>
  );
}

function Signs({ x, y, missed }: { readonly x: number; readonly y: number; readonly missed: boolean }) {
  return (
    <g transform={`translate(${x} ${y})`}>
      <circle cx="4" cy="-4" r="4" style={{ fill: 'var(--ink)' }} />
      <text class="small" x="14">
        within
      </text>
      <circle cx="66" cy="-4" r="4" class="ink" stroke-width="1.5" />
      <text class="small" x="76">
        not yet
      </text>
      {missed && (
        <path d="M127 -8l8 8m0 -8l-8 8" style={{ stroke: 'var(--outside)', fill: 'none' }} stroke-width="1.8" />
      )}
      {missed && (
        <text class="small" x="141">
          tape missed
        </text>
      )}
    </g>
  );
}
