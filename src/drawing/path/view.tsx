/** One view of the machine: rails, the nominal axis as a chain line, parts with their names, the beam. */
import type { Displacement, PathFigure, PathPart } from '../../model/index.ts';
import { px } from '../number.ts';
import { OKABE_ITO } from '../theme.ts';
import { Names } from './names.tsx';
import { lineThrough, type Spot } from '../outline.ts';
import type { View } from './views.ts';

export const THEN = OKABE_ITO[5];

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
      <Beam spots={[view.at(EXIT, tube.off), ...parts.map(({ at, met }) => met && view.at(at, met))]} parts={parts} />
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
      <Names spots={axis} names={['tube', ...parts.map(({ name }) => name)]} width={width} />
    </g>
  );
}

/** Up to where the beam comes. */
function reached(spots: readonly (Spot | undefined)[]): Spot[] {
  const lost = spots.indexOf(undefined);
  return (lost < 0 ? spots : spots.slice(0, lost)) as Spot[];
}

/** Where a carriage can stand. */
function Rail({ from, to }: { readonly from: Spot; readonly to: Spot }) {
  return (
    <path
      d={lineThrough([from, to])}
      style={{ stroke: 'var(--line)', fill: 'none' }}
      stroke-width="10"
      stroke-linecap="round"
    />
  );
}

/** Pixels: nobody says how long it is. */
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

/** Smaller than this nobody sees how it is tilted. */
const LEAST = 8;
const CORNERS = 24;

/** A round plate as it is seen from here: a line where it is seen edge on. */
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
  const rim = Array.from({ length: CORNERS }, (_, k) => (2 * Math.PI * k) / CORNERS).map((angle): Spot => {
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

/** A leg is dotted where no mark says that the beam runs so. */
function Beam({
  spots,
  parts,
}: {
  readonly spots: readonly (Spot | undefined)[];
  readonly parts: readonly PathPart[];
}) {
  return (
    <g style={{ stroke: 'var(--ink)' }} stroke-width="1.6" fill="none">
      {reached(spots)
        .slice(1)
        .map((to, k) => (
          <path
            key={k}
            d={lineThrough([spots[k]!, to])}
            {...(parts[k]!.isMeasured ? {} : { 'stroke-dasharray': '1 3' })}
          />
        ))}
    </g>
  );
}
