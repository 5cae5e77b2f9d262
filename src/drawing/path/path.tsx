/**
 * The machine from above, from the front and from the right, to scale, with the beam; and its clearance in every
 * aperture.
 */
import { lengthsIn, type PathFigure, type Units } from '../../model/index.ts';
import { px } from '../number.ts';
import { LETTER, short } from '../short.ts';
import { Clearance, CLEARANCE_ROW } from './clearance.tsx';
import { THEN, ViewOf } from './view.tsx';
import { pathScale } from './views.ts';
import { clearanceOfWhat, pathInWords } from './words.ts';

/** The properties of `Path`. */
export interface PathProps {
  readonly figure: PathFigure;
  /** Pixels. */
  readonly width: number;
  readonly style?: string | undefined;
}

const EDGE = 10;
const ROW = 17;
const HEAD = 42;

/** The beam path in three views, with the clearances. */
export function Path({ figure, width, style }: PathProps) {
  const { machine, place, parts, carriages, isMoved, units } = figure;
  const { per, factor, views, height: drawn } = pathScale(figure, width);
  const keys = isMoved ? 3 : 2;
  const charts = HEAD + drawn + keys * ROW + 2 * EDGE;
  const height = charts + 2 * ROW + parts.length * CLEARANCE_ROW + EDGE;
  const title = `Beam path of ${machine}`;
  const range = rangeOf(figure);
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={width}
      height={px(height)}
      viewBox={`0 0 ${width} ${px(height)}`}
      role="img"
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{pathInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={width} height={px(height)} rx="6" style={{ fill: 'var(--paper)' }} />}
      <text class="name" x={EDGE} y="17">
        {short(title, (width - 2 * EDGE) / LETTER.bold)}
      </text>
      <text class="small" x={EDGE} y="33">
        {short(place, (width - 2 * EDGE) / LETTER.plain)}
      </text>
      <g transform={`translate(0 ${HEAD})`}>
        {views.map((view) => (
          <ViewOf key={view.name} figure={figure} view={view} per={per} width={width} />
        ))}
      </g>
      <Keys y={HEAD + drawn} per={per} factor={factor} isMoved={isMoved} width={width} units={units} />
      <text class="name" x={EDGE} y={px(charts + 8)}>{`clearance, ${lengthsIn(units).unit}`}</text>
      <text class="small pale" x={EDGE} y={px(charts + 8 + ROW)}>
        {clearanceOfWhat(figure)}
      </text>
      {parts.map((part, k) => {
        const own = carriages.find(({ rides }) => rides === part.clearance.rides);
        return (
          <Clearance
            key={part.name}
            part={part}
            isMoved={isMoved}
            leg={own?.leg}
            range={range}
            top={Math.round(charts + 2 * ROW + k * CLEARANCE_ROW)}
            width={width}
          />
        );
      })}
    </svg>
  );
}

/** All charts have the same scale, down to the smallest clearance, at most twice the largest aperture radius. */
function rangeOf({ parts }: PathFigure): readonly [number, number] {
  const most = Math.max(...parts.map(({ aperture }) => aperture / 2));
  const least = Math.min(
    0,
    ...parts.flatMap(({ clearance: { points } }) => points.flatMap(({ now = 0, then = 0 }) => [now, then])),
  );
  return [Math.max(-2 * most, least), most];
}

interface KeysProps {
  readonly y: number;
  readonly per: number;
  readonly factor: number;
  readonly isMoved: boolean;
  readonly width: number;
  readonly units: Units;
}

/** Maximum length of the scale bar, pixels. */
const BAR = 70;

function Keys({ y, per, factor, isMoved, width, units }: KeysProps) {
  const { bars, given } = lengthsIn(units);
  const bar = bars.find((length) => length * per <= BAR) ?? bars.at(-1)!;
  return (
    <g transform={`translate(${EDGE} ${px(y)})`}>
      <path d={`M${px(width - 2 * EDGE - bar * per)} 8v4h${px(bar * per)}v-4`} class="ink" />
      <text class="small" x={width - 2 * EDGE} y="26" text-anchor="end">
        {given(bar)}
      </text>
      <path d="M0 10h22" style={{ stroke: 'var(--ink)' }} stroke-width="1.6" />
      <text class="small" x="28" y="14">{`beam, offset drawn × ${factor}`}</text>
      <path d="M0 27h22" style={{ stroke: 'var(--ink)' }} stroke-width="1.6" stroke-dasharray="1 3" />
      <text class="small" x="28" y="31">
        not shot here yet
      </text>
      {isMoved && <path d="M0 44h22" style={{ stroke: THEN }} stroke-width="1.6" stroke-dasharray="6 3" />}
      {isMoved && (
        <text class="small" x="28" y="48">
          after the advised step
        </text>
      )}
    </g>
  );
}
