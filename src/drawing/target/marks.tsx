/** Marks: earlier rounds as a trail, current ones with their uncertainty, and the predicted next ones. */
import type { TargetMark } from '../../model/index.ts';
import { px } from '../number.ts';
import { lineThrough } from '../outline.ts';
import { colourOf, Sign } from '../sign.tsx';
import { Halves } from './halves.tsx';
import { Next } from './next.tsx';
import { pressed } from './pressed.ts';
import type { TapeScale } from './scale.ts';
import { markInFull } from './words.ts';
import type { MarksProps } from './marks-props.ts';

export function Marks(props: MarksProps) {
  const { figure, scale } = props;
  const now = figure.marks.filter(({ age }) => age !== 'earlier');
  return (
    <g>
      {figure.places.map((_, place) => (
        <Trail key={place} marks={figure.marks.filter((mark) => mark.place === place)} scale={scale} />
      ))}
      {figure.expected.map((expected) => (
        <Next key={expected.place} expected={expected} scale={scale} behind={props.behind} />
      ))}
      <Halves {...props} />
      {now.map((mark) => (
        <Doubt key={keyOf(mark)} mark={mark} scale={scale} />
      ))}
      {now.map((mark) => (
        <Mark key={keyOf(mark)} mark={mark} {...props} />
      ))}
    </g>
  );
}

function keyOf({ cell, path, place }: TargetMark): string {
  return `${cell} ${path} ${place}`;
}

/** As found is a ring, later rounds are dots. */
function Trail({ marks, scale }: { readonly marks: readonly TargetMark[]; readonly scale: TapeScale }) {
  const earlier = marks.filter(({ age }) => age === 'earlier');
  if (earlier.length === 0) return null;
  const colour = colourOf(earlier[0]!.place);
  return (
    <g style={{ stroke: colour }} opacity="0.65">
      <path d={lineThrough(marks.map((mark) => scale.at(mark)))} fill="none" stroke-width="1" stroke-dasharray="2 3" />
      {earlier.map((mark) => {
        const { x, y } = scale.at(mark);
        return (
          <circle
            key={keyOf(mark)}
            cx={px(x)}
            cy={px(y)}
            r={mark.round === 1 ? 4 : 2}
            style={{ fill: mark.round === 1 ? 'none' : colour }}
            stroke-width="1.5"
          />
        );
      })}
    </g>
  );
}

/** Twice the standard uncertainty of the reading. */
function Doubt({ mark, scale }: { readonly mark: TargetMark; readonly scale: TapeScale }) {
  const { x, y } = scale.at(mark);
  return (
    <circle
      cx={px(x)}
      cy={px(y)}
      r={px(2 * mark.u * scale.per)}
      style={{ fill: colourOf(mark.place) }}
      fill-opacity="0.18"
    />
  );
}

function Mark({ mark, figure, scale, letters, selected, onSelect }: { readonly mark: TargetMark } & MarksProps) {
  const { x, y } = scale.at(mark);
  const isSelected = selected?.cell === mark.cell && selected.path === mark.path;
  const words = markInFull(mark, figure);
  return (
    <g {...(onSelect && pressed(`${letters[mark.place]!}: ${words}`, isSelected, () => onSelect(mark)))}>
      <title>{words}</title>
      {isSelected && <circle class="ink" cx={px(x)} cy={px(y)} r="12" stroke-width="2" />}
      <Sign x={x} y={y} place={mark.place} letter={letters[mark.place]!} hollow={mark.age === 'stale'} />
    </g>
  );
}
