/** The beam where it stands worst on the tape, and the part of it that the hole cuts off. */
import type { TargetFigure, TargetMark } from '../../model/index.ts';
import { px } from '../number.ts';
import type { TapeScale } from './scale.ts';

/** The mark about which the beam is drawn, how wide it is there, mm, and whether the hole cuts some of it off. */
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
  const found = footprintOf(figure);
  if (!found) return null;
  const { aperture } = figure;
  const { x, y } = scale.at(found.mark);
  const radius = (found.beam / 2) * scale.per;
  const cut = lost({ x, y, radius }, { ...scale.middle, radius: (aperture / 2) * scale.per });
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

/** What of a disc lies outside another, as a path; empty where nothing does. */
function lost(beam: Disc, hole: Disc): string {
  const apart = Math.hypot(beam.x - hole.x, beam.y - hole.y);
  if (apart + beam.radius <= hole.radius) return '';
  if (apart >= beam.radius + hole.radius) return whole(beam);
  if (apart + hole.radius <= beam.radius) return whole(beam) + whole(hole);
  // The two corners, by the distance of their chord from the hole's middle.
  const toChord = (apart ** 2 + hole.radius ** 2 - beam.radius ** 2) / (2 * apart);
  const half = Math.sqrt(hole.radius ** 2 - toChord ** 2);
  const [ux, uy] = [(beam.x - hole.x) / apart, (beam.y - hole.y) / apart];
  const [cx, cy] = [hole.x + ux * toChord, hole.y + uy * toChord];
  const one = `${px(cx - uy * half)} ${px(cy + ux * half)}`;
  const other = `${px(cx + uy * half)} ${px(cy - ux * half)}`;
  // Round the far side of the beam, more than half of it where its middle lies beyond the chord; then back along the hole's edge.
  return `M${other}A${px(beam.radius)} ${px(beam.radius)} 0 ${apart > toChord ? 1 : 0} 1 ${one}A${px(hole.radius)} ${px(hole.radius)} 0 ${toChord < 0 ? 1 : 0} 0 ${other}z`;
}

function whole({ x, y, radius }: Disc): string {
  const r = px(radius);
  return `M${px(x - radius)} ${px(y)}a${r} ${r} 0 1 0 ${px(2 * radius)} 0a${r} ${r} 0 1 0 ${px(-2 * radius)} 0z`;
}
