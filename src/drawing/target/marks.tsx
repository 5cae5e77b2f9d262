/** Marks: of rounds before as a trail, those that count with their uncertainty, and where the next will come. */
import { line } from 'd3-shape';
import type { TargetExpected, TargetFigure, TargetMark, TextPlace } from '../../model/index.ts';
import { px } from '../number.ts';
import { colourOf, Sign } from '../sign.tsx';
import type { Spot, TapeScale } from './scale.ts';
import { markInFull } from './words.ts';

export interface MarksProps {
  readonly figure: TargetFigure;
  readonly scale: TapeScale;
  readonly behind: boolean;
  readonly letters: readonly string[];
  /** Where it stands in the text, which is selected there. */
  readonly selected?: TextPlace | undefined;
  readonly onSelect?: ((mark: TextPlace) => void) | undefined;
}

export function Marks(props: MarksProps) {
  const { figure, scale } = props;
  const now = figure.marks.filter(({ age }) => age !== 'earlier');
  return (
    <g>
      {figure.places.map((_, place) => <Trail key={place} marks={figure.marks.filter((mark) => mark.place === place)} scale={scale} />)}
      {figure.expected.map((expected) => <Next key={expected.place} expected={expected} scale={scale} behind={props.behind} />)}
      {now.map((mark) => <Doubt key={keyOf(mark)} mark={mark} scale={scale} />)}
      {now.map((mark) => <Mark key={keyOf(mark)} mark={mark} {...props} />)}
    </g>
  );
}

function keyOf({ cell, path, place }: TargetMark): string {
  return `${cell} ${path} ${place}`;
}

const pathThrough = line<Spot>(({ x }) => px(x), ({ y }) => px(y));

/** As found is a ring, what came between a dot. */
function Trail({ marks, scale }: { readonly marks: readonly TargetMark[]; readonly scale: TapeScale }) {
  const earlier = marks.filter(({ age }) => age === 'earlier');
  if (earlier.length === 0) return null;
  const colour = colourOf(earlier[0]!.place);
  return (
    <g style={{ stroke: colour }} opacity="0.65">
      <path d={pathThrough(marks.map((mark) => scale.at(mark))) ?? ''} fill="none" stroke-width="1" stroke-dasharray="2 3" />
      {earlier.map((mark) => {
        const { x, y } = scale.at(mark);
        return <circle key={keyOf(mark)} cx={px(x)} cy={px(y)} r={mark.round === 1 ? 4 : 2} style={{ fill: mark.round === 1 ? 'none' : colour }} stroke-width="1.5" />;
      })}
    </g>
  );
}

/** Twice the standard uncertainty of the reading. */
function Doubt({ mark, scale }: { readonly mark: TargetMark; readonly scale: TapeScale }) {
  const { x, y } = scale.at(mark);
  return <circle cx={px(x)} cy={px(y)} r={px(2 * mark.u * scale.per)} style={{ fill: colourOf(mark.place) }} fill-opacity="0.18" />;
}

/** An ellipse that holds it with 95 %, and a cross where it is most likely. */
function Next({ expected: { place, right, up, ellipse }, scale, behind }: { readonly expected: TargetExpected; readonly scale: TapeScale; readonly behind: boolean }) {
  const { x, y } = scale.at({ right, up });
  const turned = ((behind ? ellipse.angle : -ellipse.angle) * 180) / Math.PI;
  return (
    <g style={{ stroke: colourOf(place) }} fill="none" stroke-width="1.5">
      <ellipse rx={px(ellipse.major * scale.per)} ry={px(ellipse.minor * scale.per)} transform={`translate(${px(x)} ${px(y)}) rotate(${px(turned)})`} stroke-dasharray="4 2" />
      <path d={`M${px(x - 4)} ${px(y - 4)}l8 8m0 -8l-8 8`} />
    </g>
  );
}

function Mark({ mark, figure, scale, letters, selected, onSelect }: { readonly mark: TargetMark } & MarksProps) {
  const { x, y } = scale.at(mark);
  const isSelected = selected?.cell === mark.cell && selected.path === mark.path;
  const words = markInFull(mark, figure);
  const button = onSelect && {
    role: 'button' as const, tabIndex: 0, 'aria-label': `${letters[mark.place]!}: ${words}`, 'aria-pressed': isSelected, class: 'mark',
    onClick: () => onSelect(mark),
    onKeyDown: (event: { key: string; preventDefault(): void }) => {
      if (event.key !== 'Enter' && event.key !== ' ') return;
      event.preventDefault();
      onSelect(mark);
    },
  };
  return (
    <g {...button}>
      <title>{words}</title>
      {isSelected && <circle class="ink" cx={px(x)} cy={px(y)} r="12" stroke-width="2" />}
      <Sign x={x} y={y} place={mark.place} letter={letters[mark.place]!} hollow={mark.age === 'stale'} />
    </g>
  );
}
