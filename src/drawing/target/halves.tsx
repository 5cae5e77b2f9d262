/** Marks with one coordinate: a line across the tape, as wide as its uncertainty, with the sign at the end. */
import type { TargetHalf } from '../../model/index.ts';
import { px } from '../number.ts';
import { lineColour, Sign } from '../sign.tsx';
import type { MarksProps } from './marks-props.ts';
import { pressed } from './pressed.ts';
import type { PixelPoint } from '../outline.ts';
import type { TapeScale } from './scale.ts';
import { halfInFull } from './words.ts';

export function Halves(props: MarksProps) {
  const { halves } = props.figure;
  return halves.length === 0 ? null : (
    <g>
      {halves.map((half, k) => (
        <Half
          key={`${half.cell} ${half.path}`}
          half={half}
          before={halves.slice(0, k).filter(({ read }) => read === half.read).length}
          {...props}
        />
      ))}
    </g>
  );
}

/** Pixels from the edge to the sign, and between the signs of lines that may overlap. */
const INSIDE = 26;
const APART = 18;

function Half({
  half,
  before,
  figure,
  scale,
  letters,
  selected,
  onSelect,
}: { readonly half: TargetHalf; readonly before: number } & MarksProps) {
  const [from, to] = across(half, scale);
  const along = INSIDE + before * APART;
  const sign = half.read === 'right' ? { x: to.x, y: along } : { x: scale.size - along, y: to.y };
  const words = halfInFull(half, figure);
  const isSelected = selected?.cell === half.cell && selected.path === half.path;
  const path = `M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}`;
  return (
    <g {...(onSelect && pressed(`${letters[half.place]!} ${words}`, isSelected, () => onSelect(half)))}>
      <title>{words}</title>
      <path
        d={path}
        style={{ stroke: lineColour(half.place), fill: 'none' }}
        stroke-width={px(4 * half.u * scale.per)}
        stroke-opacity="0.18"
      />
      <path class="half" d={path} style={{ stroke: lineColour(half.place), fill: 'none' }} stroke-width="1.5" />
      {onSelect && <circle cx={px(sign.x)} cy={px(sign.y)} r="12" fill="transparent" />}
      {isSelected && <circle class="ink" cx={px(sign.x)} cy={px(sign.y)} r="12" stroke-width="2" />}
      <Sign {...sign} place={half.place} letter={letters[half.place]!} hollow={half.age === 'stale'} />
    </g>
  );
}

/** From edge to edge of the field, toward the top or the right. */
function across({ read, value }: TargetHalf, scale: TapeScale): [PixelPoint, PixelPoint] {
  const { middle } = scale.window;
  const at = scale.at({ ...middle, [read]: value });
  return read === 'right'
    ? [
        { x: at.x, y: scale.size },
        { x: at.x, y: 0 },
      ]
    : [
        { x: 0, y: at.y },
        { x: scale.size, y: at.y },
      ];
}
