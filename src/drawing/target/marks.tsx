/** Marks: earlier rounds as a trail, current ones with their uncertainty, and the predicted next ones. */
import type { TargetFigure, TargetMark } from '../../model/index.ts';
import { px } from '../number.ts';
import { lineThrough, type PixelPoint } from '../outline.ts';
import { lineColour, Sign } from '../sign.tsx';
import { apart, distance } from './apart.ts';
import { Halves } from './halves.tsx';
import { Next } from './next.tsx';
import { pressed } from './pressed.ts';
import type { TapeScale } from './scale.ts';
import { markInFull } from './words.ts';
import type { MarksProps } from './marks-props.ts';

export function Marks(props: MarksProps) {
  const { figure, scale } = props;
  const now = figure.marks.filter(({ age }) => age !== 'earlier');
  const signs = apart(
    now.map((mark) => scale.at(mark)),
    scale.size,
  );
  return (
    <g>
      {figure.expected.map((expected) => (
        <Next key={expected.place} expected={expected} scale={scale} behind={props.behind} />
      ))}
      {figure.places.map((_, place) => (
        <Trail key={place} marks={figure.marks.filter((mark) => mark.place === place)} scale={scale} />
      ))}
      <Halves {...props} />
      {now.map((mark) => (
        <Doubt key={keyOf(mark)} mark={mark} scale={scale} />
      ))}
      {now.map((mark, k) => (
        <Leader key={keyOf(mark)} from={signs[k]!} to={scale.at(mark)} />
      ))}
      {now.map((mark, k) => (
        <Mark key={keyOf(mark)} mark={mark} sign={signs[k]!} {...props} />
      ))}
    </g>
  );
}

function keyOf({ cell, path, place }: TargetMark): string {
  return `${cell} ${path} ${place}`;
}

/** As found is a ring, later rounds are dots. */
function Trail({ marks, scale }: { readonly marks: TargetFigure['marks']; readonly scale: TapeScale }) {
  const earlier = marks.filter(({ age }) => age === 'earlier');
  if (earlier.length === 0) return null;
  const colour = lineColour(earlier[0]!.place);
  return (
    <g style={{ stroke: colour }}>
      <path
        d={lineThrough(marks.map((mark) => scale.at(mark)))}
        fill="none"
        stroke-width="1.4"
        stroke-linecap="round"
        stroke-dasharray="1.2 3.4"
      />
      {earlier.map((mark) => {
        const { x, y } = scale.at(mark);
        return (
          <circle
            key={keyOf(mark)}
            cx={px(x)}
            cy={px(y)}
            r={mark.round === 1 ? 4 : 1.8}
            style={{ fill: mark.round === 1 ? 'var(--ground)' : colour }}
            stroke-width="1.5"
          />
        );
      })}
    </g>
  );
}

/** Twice the standard uncertainty of the reading. */
function Doubt({ mark, scale }: { readonly mark: TargetMark; readonly scale: TapeScale }) {
  if (!scale.isInside(mark)) return null;
  const { x, y } = scale.at(mark);
  const colour = lineColour(mark.place);
  return (
    <circle
      cx={px(x)}
      cy={px(y)}
      r={px(2 * mark.u * scale.per)}
      style={{ fill: colour, stroke: colour }}
      fill-opacity="0.18"
      stroke-opacity="0.55"
      stroke-width="0.75"
    />
  );
}

/** From a sign that was moved aside to the place of its mark. */
function Leader({ from, to }: { readonly from: PixelPoint; readonly to: PixelPoint }) {
  if (distance(from, to) < 1) return null;
  return (
    <g class="leader">
      <path class="ink" d={`M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}`} stroke-width="1.25" />
      <circle cx={px(to.x)} cy={px(to.y)} r="2.4" style={{ fill: 'var(--ink)' }} />
    </g>
  );
}

function Mark({
  mark,
  sign,
  figure,
  letters,
  selected,
  onSelect,
}: { readonly mark: TargetMark; readonly sign: PixelPoint } & MarksProps) {
  const isSelected = selected?.cell === mark.cell && selected.path === mark.path;
  const words = markInFull(mark, figure);
  return (
    <g {...(onSelect && pressed(`${letters[mark.place]!} ${words}`, isSelected, () => onSelect(mark)))}>
      <title>{words}</title>
      {onSelect && <circle cx={px(sign.x)} cy={px(sign.y)} r="12" fill="transparent" />}
      {isSelected && <circle class="ink" cx={px(sign.x)} cy={px(sign.y)} r="12" stroke-width="2" />}
      <Sign {...sign} place={mark.place} letter={letters[mark.place]!} hollow={mark.age === 'stale'} />
    </g>
  );
}
