/**
 * A burnt tape: paper with the ring of the aperture pressed through, pencil axes with millimetre ticks, and the burn.
 * It is to be read by eye, so that nothing on it says where the mark is.
 */
import { lengthsIn, type Axes, type BurnFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import { sideInWords, sidesOf, type Side } from '../sides.ts';
import { Compared } from './compared.tsx';
import { burnHeight, burnScale, MARGIN, type BurnScale } from './scale.ts';

/** The properties of `Burn`. */
export interface BurnProps {
  readonly figure: BurnFigure;
  /** Pixels, of the square tape with the words of its sides above and below. */
  readonly width: number;
  readonly behind?: boolean;
  readonly style?: string | undefined;
  /** Where the cross of the reader stands, mm. */
  readonly cursor?: Axes | undefined;
}

/** Tape is tape in every theme: what is read on it must not depend on the colours of the editor. */
const PAPER = { tape: '#e6d9ab', fibre: '#cdbb84', pencil: '#6f6a58', pressed: '#8d8053', lit: '#f7f0d2' } as const;
const BURNT = { smoke: '#6a4f2a', scorch: '#a9692a', brown: '#5a3312', core: '#191009' } as const;

/** The burnt tape of a simulated machine. */
export function Burn({ figure, width, behind = false, style, cursor }: BurnProps) {
  const scale = burnScale(figure, width, behind);
  const height = burnHeight(width);
  const name = `Burnt tape on ${figure.station}${figure.place === '' ? '' : `, ${figure.place}`}`;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="figure"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={name}
    >
      <title>{name}</title>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={width} height={height} style={{ fill: 'var(--paper)' }} />}
      <clipPath id="burnt-tape">
        <rect x={0} y={MARGIN.top} width={width} height={width} rx={3} />
      </clipPath>
      <g clip-path="url(#burnt-tape)">
        <Paper width={width} />
        <Ring figure={figure} scale={scale} />
        <Pencil figure={figure} scale={scale} width={width} />
        <Burnt figure={figure} scale={scale} />
        {cursor && <Cross scale={scale} at={cursor} width={width} />}
        <Compared figure={figure} scale={scale} />
      </g>
      <Words figure={figure} width={width} behind={behind} />
    </svg>
  );
}

const FIBRES = 64;

/** Fibres at fixed places: paper says nothing. */
function Paper({ width }: { readonly width: number }) {
  const fibre = (k: number) => {
    const [x, y, length] = [(k * 37) % 100, (k * 61) % 100, 10 + ((k * 23) % 40)];
    return `M${px((x / 100) * width)} ${px(MARGIN.top + (y / 100) * width)}h${px((length / 100) * width)}`;
  };
  return (
    <>
      <rect x={0} y={MARGIN.top} width={width} height={width} style={{ fill: PAPER.tape }} />
      <path
        d={Array.from({ length: FIBRES }, (_, k) => fibre(k)).join('')}
        style={{ stroke: PAPER.fibre, fill: 'none', opacity: 0.45 }}
        stroke-width="0.75"
      />
    </>
  );
}

function Ring({
  figure: { aperture },
  scale: { centre, per },
}: {
  readonly figure: BurnFigure;
  readonly scale: BurnScale;
}) {
  if (aperture === undefined) return null;
  const ring = (radius: number, stroke: string, width: number) => (
    <circle cx={centre.x} cy={centre.y} r={px(radius)} style={{ stroke, fill: 'none' }} stroke-width={width} />
  );
  return (
    <>
      {ring((aperture / 2) * per, PAPER.pressed, 2.25)}
      {ring((aperture / 2) * per - 1.6, PAPER.lit, 1)}
    </>
  );
}

/** Pixels: half of a tick, and of every fifth. */
const TICK = 3;
const LONG_TICK = 7;
/** Pixels from an axis to its numbers. */
const NUMBER = 12;

function Pencil({
  figure,
  scale,
  width,
}: {
  readonly figure: BurnFigure;
  readonly scale: BurnScale;
  readonly width: number;
}) {
  const { centre, per, reach } = scale;
  const { tick: inUnits } = lengthsIn(figure.frame.units);
  const unit = figure.frame.units === 'in' ? INCH_TICK : 1;
  const count = Math.floor(reach / unit);
  const ticks = Array.from({ length: 2 * count + 1 }, (_, k) => k - count).filter((k) => k !== 0);
  const half = (k: number) => (k % 5 === 0 ? LONG_TICK : TICK);
  const path = ticks
    .map((k) => {
      const [x, y] = [px(centre.x + k * unit * per), px(centre.y + k * unit * per)];
      return `M${x} ${px(centre.y - half(k))}v${2 * half(k)}M${px(centre.x - half(k))} ${y}h${2 * half(k)}`;
    })
    .join('');
  // A number on the pressed ring could not be read.
  const isOnRing = (k: number) => Math.abs(Math.abs(k) * unit - (figure.aperture ?? 0) / 2) < unit;
  const numbered = ticks.filter((k) => k % 5 === 0 && !isOnRing(k));
  return (
    <g>
      <path
        d={`M0 ${px(centre.y)}H${width}M${px(centre.x)} ${MARGIN.top}v${width}${path}`}
        style={{ stroke: PAPER.pencil, fill: 'none' }}
        stroke-width="0.9"
      />
      {numbered.map((k) => (
        <g key={k}>
          <text
            class="small"
            x={px(centre.x + k * unit * per)}
            y={px(centre.y + LONG_TICK + NUMBER)}
            text-anchor="middle"
            style={{ fill: PAPER.pencil }}
          >
            {inUnits(Math.abs(k) * unit)}
          </text>
          <text
            class="small"
            x={px(centre.x + LONG_TICK + 4)}
            y={px(centre.y + k * unit * per + 4)}
            style={{ fill: PAPER.pencil }}
          >
            {inUnits(Math.abs(k) * unit)}
          </text>
        </g>
      ))}
    </g>
  );
}

/** mm: a twentieth of an inch, five of which are a quarter. */
const INCH_TICK = 25.4 / 20;

function Burnt({ figure: { burnt }, scale }: { readonly figure: BurnFigure; readonly scale: BurnScale }) {
  if (!burnt) return null;
  const area = (outline: readonly Axes[], fill: string, opacity: number, key?: number) => (
    <path key={key} d={closed(outline, scale)} style={{ fill, opacity }} />
  );
  return (
    <g>
      <filter id="soft">
        <feGaussianBlur stdDeviation={px(0.18 * scale.per)} />
      </filter>
      <g filter="url(#soft)">
        {burnt.smoke.map((puff, k) => area(puff, BURNT.smoke, 0.16 - 0.022 * k, k))}
        {area(burnt.scorch, BURNT.scorch, 0.5)}
      </g>
      {area(burnt.brown, BURNT.brown, 0.75)}
      {area(burnt.core, BURNT.core, 0.95)}
    </g>
  );
}

/** A smooth outline through the middles of its edges. */
function closed(outline: readonly Axes[], scale: BurnScale): string {
  const points = outline.map((point) => scale.at(point));
  const middle = (k: number) => {
    const [one, other] = [points[k % points.length]!, points[(k + 1) % points.length]!];
    return `${px((one.x + other.x) / 2)} ${px((one.y + other.y) / 2)}`;
  };
  const curves = points.map((_, k) => {
    const { x, y } = points[(k + 1) % points.length]!;
    return `Q${px(x)} ${px(y)} ${middle(k + 1)}`;
  });
  return `M${middle(0)}${curves.join('')}Z`;
}

function Cross({ scale, at, width }: { readonly scale: BurnScale; readonly at: Axes; readonly width: number }) {
  const { x, y } = scale.at(at);
  return (
    <path
      class="cursor"
      d={`M0 ${px(y)}H${width}M${px(x)} ${MARGIN.top}v${width}M${px(x - 9)} ${px(y - 9)}h18v18h-18Z`}
      style={{ stroke: '#0072B2', fill: 'none' }}
      stroke-width="1.25"
    />
  );
}

function Words({
  figure: { frame },
  width,
  behind,
}: {
  readonly figure: BurnFigure;
  readonly width: number;
  readonly behind: boolean;
}) {
  const sides = sidesOf(frame, behind);
  const words = (side: Side) => {
    const [viewer, machine] = sideInWords(side, frame.runs);
    return machine === undefined ? viewer! : `${viewer} (${machine})`;
  };
  const below = MARGIN.top + width + 15;
  return (
    <g>
      <text class="small" x={width / 2} y={MARGIN.top - 6} text-anchor="middle">
        {`▴ ${words(sides.top)}`}
      </text>
      <text class="small" x={0} y={below}>
        {`◂ ${words(sides.left)}`}
      </text>
      <text class="small" x={width / 2} y={below} text-anchor="middle">
        {`▾ ${words(sides.bottom)}`}
      </text>
      <text class="small" x={width} y={below} text-anchor="end">
        {`${words(sides.right)} ▸`}
      </text>
    </g>
  );
}
