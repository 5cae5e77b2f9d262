/** The beam at the mark farthest from the centre, and the part of it that the aperture clips. */
import type { TargetFigure, TargetMark } from '../../model/index.ts';
import { px } from '../number.ts';
import { hatching } from './hatch.ts';
import type { TapeScale } from './scale.ts';

/** That mark, the beam's diameter there, mm, and whether the aperture clips it. */
export function footprintOf({
  aperture,
  beam,
  marks,
}: TargetFigure): { readonly mark: TargetMark; readonly beam: number; readonly isCut: boolean } | undefined {
  const now = marks.filter(({ age }) => age !== 'earlier');
  if (beam === undefined || now.length === 0) return undefined;
  const mark = now.reduce((most, one) => (distance(one) > distance(most) ? one : most));
  return { mark, beam, isCut: distance(mark) + beam / 2 > aperture / 2 };
}

/** Pixels between lines of the hatching. */
const HATCH = 5;

export function Footprint({ figure, scale }: { readonly figure: TargetFigure; readonly scale: TapeScale }) {
  const footprint = footprintOf(figure);
  if (!footprint) return null;
  const { x, y } = scale.beyond(footprint.mark);
  const radius = (footprint.beam / 2) * scale.per;
  const aperture = { ...scale.centre, radius: (figure.aperture / 2) * scale.per };
  return (
    <g>
      <circle
        cx={px(x)}
        cy={px(y)}
        r={px(radius)}
        style={{ fill: 'var(--ink)', stroke: 'var(--ink)' }}
        fill-opacity="0.07"
        stroke-opacity="0.3"
        stroke-width="0.75"
      />
      {footprint.isCut && (
        <path
          class="cut"
          d={hatching(scale.size, HATCH, aperture, { x, y, radius })}
          style={{ stroke: 'var(--outside)' }}
          stroke-width="1.25"
        />
      )}
    </g>
  );
}

function distance({ right, up }: Pick<TargetMark, 'right' | 'up'>): number {
  return Math.hypot(right, up);
}
