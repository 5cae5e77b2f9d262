/** The plate of a mount as you face its screw heads: its dials to scale, its centre, and a corner without a screw. */
import type { Axes, ScrewsFigure } from '../../model/index.ts';
import { px } from '../number.ts';
import type { PixelPoint } from '../outline.ts';
import { Dial, DIAL } from './dial.tsx';
import { mountInWords } from './words.ts';

interface PlateProps {
  readonly figure: ScrewsFigure;
  /** Pixels. */
  readonly width: number;
}

/** The plate as a picture of its own. */
export function Plate({ figure, width }: PlateProps) {
  const height = plateHeight(figure, width);
  const title = `Screws of ${figure.part}, ${viewpoint(figure)}`;
  return (
    <svg
      class="figure"
      width={width}
      height={px(height)}
      viewBox={`0 0 ${width} ${px(height)}`}
      role="img"
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{mountInWords(figure)}</desc>
      <PlateIn figure={figure} width={width} />
    </svg>
  );
}

export function viewpoint({ heads }: ScrewsFigure): string {
  return heads === 'behind' ? 'facing its screws, from behind' : 'facing its screws, from the beam side';
}

/** Pixels. */
export function plateHeight(figure: ScrewsFigure, width: number): number {
  return faceOf(figure, width).height;
}

/** The same inside another picture. */
export function PlateIn({ figure, width }: PlateProps) {
  const { screws, pivot, hand } = figure;
  const face = faceOf(figure, width);
  const empty = face.isKnown ? emptyCorner(screws.map(({ place }) => place!)) : undefined;
  return (
    <g>
      <rect
        x="0.5"
        y="0.5"
        width={px(width - 1)}
        height={px(face.height - 1)}
        rx="8"
        style={{ fill: 'var(--ground)', stroke: 'var(--rule)' }}
        stroke-dasharray={face.isKnown ? undefined : '4 3'}
      />
      <text class="small" x={px(width / 2)} y="14" text-anchor="middle">
        ▴ up
      </text>
      {face.isKnown && <Centre {...face.at({ right: 0, up: 0 })} />}
      {empty && !pivot && <NoScrew {...face.at(empty)} />}
      {pivot && face.isKnown && <Pivot {...face.at(pivot)} />}
      {screws.map((screw, k) => (
        <Dial
          key={screw.name}
          screw={screw}
          hand={hand}
          {...(screw.place && face.isKnown ? face.at(screw.place) : face.inRow(k))}
        />
      ))}
      {!face.isKnown && (
        <text class="small pale" x={px(width / 2)} y={px(face.height - 8)} text-anchor="middle">
          places not measured
        </text>
      )}
    </g>
  );
}

interface Face {
  readonly isKnown: boolean;
  readonly height: number;
  at(place: Axes): PixelPoint;
  /** Side by side, if the places are unknown. */
  inRow(k: number): PixelPoint;
}

/** Margins for a dial and the text below it, pixels. */
const ROOM = { side: DIAL + 24, top: DIAL + 22, bottom: DIAL + 24 };
/** Pixels between the outermost screws at most: a larger plate shows nothing more. */
const WIDEST = 92;

/** To scale between the outermost screws; right and up as you face the heads. */
function faceOf({ screws, pivot }: ScrewsFigure, width: number): Face {
  const places = [...screws.flatMap(({ place }) => place ?? []), ...(pivot ? [pivot] : [])];
  const isKnown = screws.every(({ place }) => place !== undefined);
  const ends = (of: (place: Axes) => number) => [Math.min(...places.map(of)), Math.max(...places.map(of))] as const;
  const [[west, east], [south, north]] = [ends(({ right }) => right), ends(({ up }) => up)];
  const available = Math.min(width - 2 * ROOM.side, WIDEST);
  const per = available / Math.max(east - west, north - south, 1);
  const begin = (width - (east - west) * per) / 2;
  return {
    isKnown,
    height: ROOM.top + ROOM.bottom + (isKnown ? (north - south) * per : 12),
    at: ({ right, up }) => ({ x: begin + (right - west) * per, y: ROOM.top + (north - up) * per }),
    inRow: (k) => ({ x: ((k + 0.5) * width) / screws.length, y: ROOM.top }),
  };
}

/** The corner that three screws in the others leave empty. */
function emptyCorner(places: readonly Axes[]): Axes | undefined {
  if (places.length !== 3) return undefined;
  const corners = places.map(({ right, up }) => `${right < 0 ? 'left' : 'right'} ${up < 0 ? 'down' : 'up'}`);
  if (new Set(corners).size < 3) return undefined;
  const size = (of: (place: Axes) => number) => Math.max(...places.map((place) => Math.abs(of(place))));
  const [right, up] = [size((place) => place.right), size((place) => place.up)];
  const missing = ['left', 'right'].flatMap((x) => ['down', 'up'].map((y) => [x, y] as const));
  const [x, y] = missing.find(([x, y]) => !corners.includes(`${x} ${y}`))!;
  return { right: x === 'left' ? -right : right, up: y === 'down' ? -up : up };
}

function NoScrew({ x, y }: PixelPoint) {
  return (
    <g>
      <circle cx={px(x)} cy={px(y)} r="11" style={{ fill: 'none', stroke: 'var(--pale)' }} stroke-dasharray="1.2 3" />
      <text class="small pale" x={px(x)} y={px(y + 24)} text-anchor="middle">
        no screw
      </text>
    </g>
  );
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
