/** The field of a tape: dots at the millimetres, the axes, the aperture and the limit with their sizes. */
import { lengthsIn, type TargetFigure, type Units } from '../../model/index.ts';
import { px } from '../number.ts';
import type { PixelPoint } from '../outline.ts';
import { distance } from './apart.ts';
import { hatching } from './hatch.ts';
import type { TapeScale } from './scale.ts';

interface FieldProps {
  readonly figure: TargetFigure;
  readonly scale: TapeScale;
}

/** Pixels between lines of the hatching. */
const HATCH = 7;

export function Field({ figure: { aperture, limit, frame }, scale }: FieldProps) {
  const { size, per, centre } = scale;
  const [x, y, radius] = [px(centre.x), px(centre.y), (aperture / 2) * per];
  return (
    <g>
      <rect width={size} height={size} style={{ fill: 'var(--ground)' }} />
      {limit !== undefined && <circle cx={x} cy={y} r={px(limit * per)} style={{ fill: 'var(--allowed)' }} />}
      <path d={hatching(size, HATCH, { ...centre, radius })} style={{ stroke: 'var(--metal)' }} stroke-width="0.75" />
      <Dots scale={scale} units={frame.units} aperture={aperture} />
      <path class="line" d={`M${x} 0V${size}M0 ${y}H${size}`} stroke-width="0.75" />
      <circle class="ink" cx={x} cy={y} r={px(radius)} stroke-width="2.25" />
      {limit !== undefined && <circle class="ink limit" cx={x} cy={y} r={px(limit * per)} stroke-width="1.25" />}
      <Axes scale={scale} units={frame.units} />
    </g>
  );
}

/** Minimum distance of dots, and of numbers, pixels. */
const CLOSEST = 9;
const NUMBERS = 34;

/** The distance of the dots, mm: the finest that is not too dense. */
function dotStep(per: number, units: Units): number {
  const { grids } = lengthsIn(units);
  return grids.find((mm) => mm * per >= CLOSEST) ?? grids.at(-1)!;
}

/** Multiples of a step on the field, mm, along one axis. */
function multiples(step: number, middle: number, across: number): number[] {
  const [from, to] = [Math.ceil((middle - across / 2) / step), Math.floor((middle + across / 2) / step)];
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, k) => (from + k) * step).filter((at) => at !== 0);
}

function Dots({
  scale,
  units,
  aperture,
}: {
  readonly scale: TapeScale;
  readonly units: Units;
  readonly aperture: number;
}) {
  const { middle, across } = scale.window;
  const step = dotStep(scale.per, units);
  const dots: string[] = [];
  for (const right of multiples(step, middle.right, across))
    for (const up of multiples(step, middle.up, across)) {
      if (Math.hypot(right, up) > aperture / 2) continue;
      const { x, y } = scale.beyond({ right, up });
      dots.push(`M${px(x - 0.5)},${px(y)}h1`);
    }
  return <path d={dots.join('')} style={{ stroke: 'var(--pale)' }} stroke-width="1" opacity="0.55" />;
}

/** Ticks at the dots, long ones with numbers. */
function Axes({ scale, units }: { readonly scale: TapeScale; readonly units: Units }) {
  const { size, per, window } = scale;
  const { x, y } = scale.centre;
  const step = dotStep(per, units);
  const { divisions, tick } = lengthsIn(units);
  const numbered = divisions.find((mm) => mm * per >= NUMBERS) ?? divisions.at(-1)!;
  const isNumbered = (mm: number) => Math.abs(mm / numbered - Math.round(mm / numbered)) < 1e-6;
  const rights = multiples(step, window.middle.right, window.across);
  const ups = multiples(step, window.middle.up, window.across);
  const ticks = [
    ...rights.map(
      (mm) =>
        `M${px(scale.beyond({ right: mm, up: 0 }).x)} ${px(y - (isNumbered(mm) ? 5 : 3))}v${isNumbered(mm) ? 10 : 6}`,
    ),
    ...ups.map(
      (mm) =>
        `M${px(x - (isNumbered(mm) ? 5 : 3))} ${px(scale.beyond({ right: 0, up: mm }).y)}h${isNumbered(mm) ? 10 : 6}`,
    ),
  ].join('');
  const isSeen = y > 0 && y < size - 18;
  return (
    <g>
      <path d={ticks} style={{ stroke: 'var(--pale)', fill: 'none' }} stroke-width="0.75" />
      {isSeen &&
        multiples(numbered, window.middle.right, window.across).map((mm) => {
          const at = scale.beyond({ right: mm, up: 0 }).x;
          return at < 12 || at > size - 12 ? null : (
            <text key={mm} class="small pale halo" x={px(at)} y={px(y + 16)} text-anchor="middle">
              {tick(Math.abs(mm))}
            </text>
          );
        })}
    </g>
  );
}

/** What limit and aperture are, at their lines, and where no mark stands. */
export function Names({ figure: { aperture, limit, frame, marks }, scale }: FieldProps) {
  const { size, per, centre } = scale;
  const { bare, given } = lengthsIn(frame.units);
  const amount = (mm: number) => (frame.units === 'mm' ? given(mm).replace(' mm', '') : bare(mm));
  const isOff = (aperture / 2) * per > size / 2;
  const at =
    limit === undefined
      ? undefined
      : besideRing(
          limit * per,
          centre,
          size,
          marks.map((mark) => scale.at(mark)),
        );
  return (
    <g>
      <text class="small pale halo" x={size - 6} y="14" text-anchor="end">
        {`aperture ⌀ ${amount(aperture)}${isOff ? ', edge off view' : ''}`}
      </text>
      {limit !== undefined && at && (
        <text class="small halo" x={px(at.x)} y={px(at.y)} text-anchor="middle">{`limit ${amount(limit)}`}</text>
      )}
    </g>
  );
}

/** Half the width of the name of a limit, pixels; and how near to it a mark may be. */
const NAME = 26;
const NEAR = 40;
/** Where the name stands around the ring, degrees from the right: the first place that is free, else the first. */
const PLACES = [-45, -135, 135, 45, -70, -110];

function besideRing(radius: number, { x, y }: PixelPoint, size: number, marks: readonly PixelPoint[]): PixelPoint {
  const kept = (at: number, least: number, most: number) => Math.min(Math.max(at, least), most);
  const places = PLACES.map((degrees): PixelPoint => {
    const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return {
      x: kept(x + cos * radius + Math.sign(cos) * (NAME + 2), NAME + 4, size - NAME - 4),
      y: kept(y - sin * radius + (sin < 0 ? 14 : -6), 28, size - 34),
    };
  });
  const isFree = (place: PixelPoint) => marks.every((mark) => distance(mark, { x: place.x, y: place.y - 4 }) > NEAR);
  return places.find(isFree) ?? places[0]!;
}
