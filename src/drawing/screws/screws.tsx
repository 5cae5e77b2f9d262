/** The face of a mount as you face its screw heads: which screw to turn, in which direction, how far. */
import { sense, turnsInWords, type Axes, type ScrewsFigure, type DrawnScrew } from '../../model/index.ts';
import { px } from '../number.ts';
import { ringSector, type PixelPoint } from '../outline.ts';
import { LETTER } from '../short.ts';
import { OKABE_ITO } from '../theme.ts';
import { mountInWords, turnInFull } from './words.ts';

/** The properties of `Screws`. */
export interface ScrewsProps {
  readonly figure: ScrewsFigure;
  /** Pixels. */
  readonly width: number;
  readonly style?: string | undefined;
}

/** Pixels. */
const DIAL = 27;
const ROW = 17;
const EDGE = 10;
const HEAD = 26;
/** Margins for a dial and the text below it. */
const ROOM = { side: 48, top: DIAL + 8, bottom: DIAL + 24 };

/** The face of a mount with its screws. */
export function Screws({ figure, width, style }: ScrewsProps) {
  const { part, screws, pivot } = figure;
  const face = faceOf(figure, width);
  const turned = screws.filter(({ turns }) => turns !== 0);
  const rows =
    turned.length > 0
      ? turned.flatMap((screw) => inRows(turnInFull(screw, figure), (width - 2 * EDGE) / LETTER.plain))
      : ['nothing to turn now'];
  const height = HEAD + face.height + rows.length * ROW + EDGE;
  const title = `Screws of ${part}, ${viewpoint(figure)}`;
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
      <desc>{mountInWords(figure)}</desc>
      {style !== undefined && <style>{style}</style>}
      {style !== undefined && <rect width={width} height={px(height)} rx="6" style={{ fill: 'var(--paper)' }} />}
      <text x={EDGE} y="17">
        <tspan class="name">{part}</tspan>
        <tspan class="small pale">{`  ${viewpoint(figure)}`}</tspan>
      </text>
      <g transform={`translate(0 ${HEAD})`}>
        <rect
          x={px(face.left)}
          y="2"
          width={px(face.right - face.left)}
          height={px(face.height - 4)}
          rx="8"
          style={{ fill: 'var(--ground)', stroke: 'var(--line)' }}
        />
        {face.isKnown && <Centre {...face.at({ right: 0, up: 0 })} />}
        {pivot && face.isKnown && <Pivot {...face.at(pivot)} />}
        {screws.map((screw, k) => (
          <Dial
            key={screw.name}
            screw={screw}
            hand={figure.hand}
            point={screw.place && face.isKnown ? face.at(screw.place) : face.inRow(k)}
          />
        ))}
      </g>
      {rows.map((row, k) => (
        <text key={k} class="small" x={EDGE} y={px(HEAD + face.height + (k + 1) * ROW - 2)}>
          {row}
        </text>
      ))}
    </svg>
  );
}

/** If the text is too long for one row, the rim's travel goes to a second. */
function inRows(text: string, letters: number): readonly string[] {
  return text.length <= letters ? [text] : text.split('; ');
}

function viewpoint({ heads }: ScrewsFigure): string {
  return heads === 'behind' ? 'facing its screws, from behind' : 'facing its screws, from the beam side';
}

interface Face {
  readonly isKnown: boolean;
  readonly left: number;
  readonly right: number;
  readonly height: number;
  at(place: Axes): PixelPoint;
  /** Side by side, if the places are unknown. */
  inRow(k: number): PixelPoint;
}

/** To scale between the outermost screws; right and up as you face the heads. */
function faceOf({ screws, pivot }: ScrewsFigure, width: number): Face {
  const places = [...screws.flatMap(({ place }) => place ?? []), ...(pivot ? [pivot] : [])];
  const isKnown = screws.every(({ place }) => place !== undefined);
  const available = Math.min(width - 2 * EDGE, 280);
  const left = (width - available) / 2;
  const ends = (of: (place: Axes) => number) => [Math.min(...places.map(of)), Math.max(...places.map(of))] as const;
  const [[west, east], [south, north]] = [ends(({ right }) => right), ends(({ up }) => up)];
  const per = (available - 2 * ROOM.side) / Math.max(east - west, north - south, 1);
  const across = Math.max(0, (available - 2 * ROOM.side - (east - west) * per) / 2);
  const height = ROOM.top + ROOM.bottom + (isKnown ? (north - south) * per : 0);
  return {
    isKnown,
    left,
    right: left + available,
    height,
    at: ({ right, up }) => ({ x: left + ROOM.side + across + (right - west) * per, y: ROOM.top + (north - up) * per }),
    inRow: (k) => ({ x: left + ((k + 0.5) * available) / screws.length, y: ROOM.top }),
  };
}

/** The mirror's centre. */
function Centre({ x, y }: PixelPoint) {
  return (
    <path d={`M${px(x - 6)} ${px(y)}h12M${px(x)} ${px(y - 6)}v12`} style={{ stroke: 'var(--pale)', fill: 'none' }} />
  );
}

function Pivot({ x, y }: PixelPoint) {
  return (
    <g>
      <circle cx={px(x)} cy={px(y)} r="5" style={{ fill: 'var(--pale)' }} />
      <text class="small" x={px(x)} y={px(y + 18)} text-anchor="middle">
        pivot
      </text>
    </g>
  );
}

/**
 * A dial like a clock face: the turn runs from the top in the direction of the hand; in is clockwise, with a left-hand
 * thread anticlockwise.
 */
function Dial({
  screw: { name, turns },
  hand,
  point: { x, y },
}: {
  readonly screw: DrawnScrew;
  readonly hand: ScrewsFigure['hand'];
  readonly point: PixelPoint;
}) {
  const ticks = Array.from({ length: 8 }, (_, k) => (k * Math.PI) / 4)
    .map((angle) => {
      const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
      return `M${px(sin * (DIAL - 4))} ${px(-cos * (DIAL - 4))}L${px(sin * DIAL)} ${px(-cos * DIAL)}`;
    })
    .join('');
  return (
    <g transform={`translate(${px(x)} ${px(y)})`}>
      <circle r={DIAL} style={{ fill: 'var(--paper)', stroke: 'var(--ink)' }} />
      <path class="ink" d={ticks} />
      {turns !== 0 && <Sweep turns={turns} hand={hand} />}
      <text class="name" y="4" text-anchor="middle">
        {name}
      </text>
      {turns !== 0 && (
        <text class="name" y={DIAL + 15} text-anchor="middle">{`${sense(turns)} ${turnsInWords(turns)}`}</text>
      )}
    </g>
  );
}

const RING = { inner: DIAL - 11, outer: DIAL - 4 };

/** Blue in, orange out, with an arrow head at the end; more than one turn is a full ring. */
function Sweep({ turns, hand }: { readonly turns: number; readonly hand: ScrewsFigure['hand'] }) {
  const clockwise = hand === 'right' ? turns : -turns;
  const shown = Math.max(-1, Math.min(1, clockwise));
  const angle = 2 * Math.PI * shown;
  const radius = (RING.inner + RING.outer) / 2;
  const [x, y] = [Math.sin(angle) * radius, -Math.cos(angle) * radius];
  const colour = turns > 0 ? OKABE_ITO[4] : OKABE_ITO[1];
  // Along the ring, in the direction of the turn.
  const heading = (angle * 180) / Math.PI + (clockwise > 0 ? 0 : 180);
  return (
    <g style={{ fill: colour }}>
      <path d={ringSector(RING, angle)} />
      <path
        d="M0 -8l9 8l-9 8z"
        style={{ fill: 'var(--ink)' }}
        transform={`translate(${px(x)} ${px(y)}) rotate(${px(heading)})`}
      />
    </g>
  );
}
