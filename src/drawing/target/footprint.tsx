/** The beam at the mark farthest from the centre, and the part of it that the aperture clips. */
import type { TargetFigure, TargetMark } from '../../model/index.ts';
import { px } from '../number.ts';
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

export function Footprint({ figure, scale }: { readonly figure: TargetFigure; readonly scale: TapeScale }) {
  const footprint = footprintOf(figure);
  if (!footprint) return null;
  const { aperture } = figure;
  const { x, y } = scale.at(footprint.mark);
  const radius = (footprint.beam / 2) * scale.per;
  const cut = clippedArea({ x, y, radius }, { ...scale.centre, radius: (aperture / 2) * scale.per });
  return (
    <g>
      <circle cx={px(x)} cy={px(y)} r={px(radius)} style={{ fill: 'var(--ink)' }} fill-opacity="0.07" />
      {cut !== '' && <path d={cut} fill-rule="evenodd" style={{ fill: 'var(--lost)' }} fill-opacity="0.45" />}
    </g>
  );
}

function distance({ right, up }: Pick<TargetMark, 'right' | 'up'>): number {
  return Math.hypot(right, up);
}

interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** The part of a disc outside another, as a path; empty if there is none. */
function clippedArea(beam: Disc, aperture: Disc): string {
  const separation = Math.hypot(beam.x - aperture.x, beam.y - aperture.y);
  if (separation + beam.radius <= aperture.radius) return '';
  if (separation >= beam.radius + aperture.radius) return fullDisc(beam);
  if (separation + aperture.radius <= beam.radius) return fullDisc(beam) + fullDisc(aperture);
  // The two corners, by the distance of their chord from the aperture's centre.
  const toChord = (separation ** 2 + aperture.radius ** 2 - beam.radius ** 2) / (2 * separation);
  const half = Math.sqrt(aperture.radius ** 2 - toChord ** 2);
  const [ux, uy] = [(beam.x - aperture.x) / separation, (beam.y - aperture.y) / separation];
  const [cx, cy] = [aperture.x + ux * toChord, aperture.y + uy * toChord];
  const one = `${px(cx - uy * half)} ${px(cy + ux * half)}`;
  const other = `${px(cx + uy * half)} ${px(cy - ux * half)}`;
  // Around the far side of the beam, by the larger arc if its centre is beyond the chord; then back along the
  // aperture's edge.
  return `M${other}A${px(beam.radius)} ${px(beam.radius)} 0 ${separation > toChord ? 1 : 0} 1 ${one}A${px(aperture.radius)} ${px(aperture.radius)} 0 ${toChord < 0 ? 1 : 0} 0 ${other}z`;
}

function fullDisc({ x, y, radius }: Disc): string {
  const r = px(radius);
  return `M${px(x - radius)} ${px(y)}a${r} ${r} 0 1 0 ${px(2 * radius)} 0a${r} ${r} 0 1 0 ${px(-2 * radius)} 0z`;
}
