/** One view of the machine: rails, the nominal axis as a chain line, parts with their names, the beam. */
import type { Displacement, PathFigure, PathPart } from '../../model/index.ts';
import { px } from '../number.ts';
import { Names } from './names.tsx';
import { lineThrough, type PixelPoint } from '../outline.ts';
import type { View } from './views.ts';

export const THEN = 'var(--l0)';

export interface ViewProps {
  readonly figure: PathFigure;
  readonly view: View;
  readonly per: number;
  /** Pixels of the whole picture. */
  readonly width: number;
}

const EXIT: Displacement = [0, 0, 0];

export function ViewOf({ figure, view, per, width }: ViewProps) {
  const { parts, carriages, tube, isMoved } = figure;
  const axis = [EXIT, ...parts.map(({ at }) => at)].map((place) => view.at(place));
  return (
    <g>
      <text class="small pale" x="10" y={px(view.top + 12)}>
        {view.name}
      </text>
      {carriages.map(({ element, ends }) => (
        <Rail key={element} from={view.at(ends[0])} to={view.at(ends[1])} />
      ))}
      <path
        d={lineThrough(axis)}
        style={{ stroke: 'var(--pale)', fill: 'none' }}
        stroke-width="0.8"
        stroke-dasharray="9 3 2 3"
      />
      <Tube fires={tube.fires} view={view} />
      {parts.map((part) => (
        <Disc key={part.name} part={part} view={view} per={per} />
      ))}
      <Beam points={[view.at(EXIT, tube.off), ...parts.map(({ at, met }) => met && view.at(at, met))]} parts={parts} />
      {isMoved && (
        <path
          d={lineThrough(
            reached([view.at(EXIT, tube.off), ...parts.map(({ at, thenMet }) => thenMet && view.at(at, thenMet))]),
          )}
          style={{ stroke: THEN, fill: 'none' }}
          stroke-width="1.6"
          stroke-dasharray="6 3"
        />
      )}
      <Names points={axis} names={['tube', ...parts.map(({ name }) => name)]} width={width} />
    </g>
  );
}

/** The points up to the first that the beam does not reach. */
function reached(points: readonly (PixelPoint | undefined)[]): PixelPoint[] {
  const end = points.indexOf(undefined);
  return (end < 0 ? points : points.slice(0, end)) as PixelPoint[];
}

/** The travel of a carriage. */
function Rail({ from, to }: { readonly from: PixelPoint; readonly to: PixelPoint }) {
  return (
    <path
      d={lineThrough([from, to])}
      style={{ stroke: 'var(--line)', fill: 'none' }}
      stroke-width="10"
      stroke-linecap="round"
    />
  );
}

/** Pixels: the workbook does not give the tube's length. */
const TUBE = 24;

function Tube({ fires, view }: { readonly fires: Displacement; readonly view: View }) {
  const { x, y } = view.at(EXIT);
  const [right, up] = [fires[view.across], fires[view.upward]];
  if (right === 0 && up === 0)
    return <circle class="ink" cx={px(x)} cy={px(y)} r="5" style={{ fill: 'var(--ground)' }} />;
  return (
    <path d={`M${px(x)} ${px(y)}l${-right * TUBE} ${up * TUBE}`} style={{ stroke: 'var(--ink)' }} stroke-width="8" />
  );
}

/** Minimum radius, pixels, so that the tilt is visible. */
const LEAST = 8;
const CORNERS = 24;

/** A round plate in this view: a line if it is seen edge on. */
function Disc({
  part: {
    at,
    face: [one, other],
    aperture,
    kind,
  },
  view,
  per,
}: {
  readonly part: PathPart;
  readonly view: View;
  readonly per: number;
}) {
  const { x, y } = view.at(at);
  const radius = Math.max(LEAST, (aperture / 2) * per);
  const rim = Array.from({ length: CORNERS }, (_, k) => (2 * Math.PI * k) / CORNERS).map((angle): PixelPoint => {
    const [c, s] = [Math.cos(angle) * radius, Math.sin(angle) * radius];
    return {
      x: x + c * one[view.across] + s * other[view.across],
      y: y - c * one[view.upward] - s * other[view.upward],
    };
  });
  return (
    <path
      class="ink"
      d={`${lineThrough(rim)}z`}
      style={{ fill: 'var(--ground)' }}
      stroke-width={kind === 'mirror' ? 2.2 : 1.2}
      stroke-linejoin="round"
    />
  );
}

/** A leg is dotted if no mark measures it. */
function Beam({
  points,
  parts,
}: {
  readonly points: readonly (PixelPoint | undefined)[];
  readonly parts: readonly PathPart[];
}) {
  return (
    <g style={{ stroke: 'var(--ink)' }} stroke-width="1.6" fill="none">
      {reached(points)
        .slice(1)
        .map((to, k) => (
          <path
            key={k}
            d={lineThrough([points[k]!, to])}
            {...(parts[k]!.isMeasured ? {} : { 'stroke-dasharray': '1 3' })}
          />
        ))}
    </g>
  );
}
