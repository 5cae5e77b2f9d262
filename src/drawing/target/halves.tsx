/** Marks with one coordinate: a line across the tape, as wide as its uncertainty, with the sign at the end. */
import type { TargetHalf } from '../../model/index.ts';
import { px } from '../number.ts';
import { colourOf, Sign } from '../sign.tsx';
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

/** Pixels from the rim to the sign, and between the signs of lines that may overlap. */
const INSIDE = 9;
const APART = 16;

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
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const fraction = Math.max(0, 1 - (INSIDE + before * APART) / Math.max(length, 1));
  const sign = { x: from.x + (to.x - from.x) * fraction, y: from.y + (to.y - from.y) * fraction };
  const words = halfInFull(half, figure);
  const isSelected = selected?.cell === half.cell && selected.path === half.path;
  const path = `M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}`;
  return (
    <g {...(onSelect && pressed(`${letters[half.place]!}: ${words}`, isSelected, () => onSelect(half)))}>
      <title>{words}</title>
      <path
        d={path}
        style={{ stroke: colourOf(half.place), fill: 'none' }}
        stroke-width={px(4 * half.u * scale.per)}
        stroke-opacity="0.18"
      />
      <path d={path} style={{ stroke: colourOf(half.place), fill: 'none' }} stroke-width="1.5" />
      {isSelected && <circle class="ink" cx={px(sign.x)} cy={px(sign.y)} r="12" stroke-width="2" />}
      <Sign {...sign} place={half.place} letter={letters[half.place]!} hollow={half.age === 'stale'} />
    </g>
  );
}

/** From rim to rim of the drawn tape, toward the top or the right. */
function across({ read, value }: TargetHalf, scale: TapeScale): [PixelPoint, PixelPoint] {
  const {
    centre: { x, y },
    radius,
  } = scale;
  const at = scale.at({ right: 0, up: 0, [read]: value });
  const half = Math.sqrt(Math.max(0, radius ** 2 - (at.x - x) ** 2 - (at.y - y) ** 2));
  return read === 'right'
    ? [
        { x: at.x, y: y + half },
        { x: at.x, y: y - half },
      ]
    : [
        { x: x - half, y: at.y },
        { x: x + half, y: at.y },
      ];
}
