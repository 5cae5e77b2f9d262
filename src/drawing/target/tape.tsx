/**
 * A station's tape, looking along the beam or from behind: a square field with the aperture, the limit, the beam, and
 * earlier, current and predicted marks; the names of its sides stand around it. Its size is its own: what stands below
 * or beside it is up to the page.
 */
import type { TargetFigure, TextPlace } from '../../model/index.ts';
import { px } from '../number.ts';
import { lettersOf } from '../sign.tsx';
import { sideInWords, sidesOf, type Side } from '../sides.ts';
import { Cursor, type TapeCursor } from './cursor.tsx';
import { Field, Names } from './field.tsx';
import { Footprint } from './footprint.tsx';
import { Marks } from './marks.tsx';
import { fitted, tapeScale, type TapeScale, type TapeWindow } from './scale.ts';
import { targetInWords } from './words.ts';

/** The properties of `Tape`. */
export interface TapeProps {
  readonly figure: TargetFigure;
  /** Width and height of the field, pixels. The size of letters is constant. */
  readonly size: number;
  /** The part of the tape that is drawn; absent: all that matters. Two tapes with the same window have one scale. */
  readonly window?: TapeWindow | undefined;
  readonly behind?: boolean;
  readonly selected?: TextPlace | undefined;
  readonly onSelect?: ((mark: TextPlace) => void) | undefined;
  /** The mark that is being read. */
  readonly cursor?: TapeCursor | undefined;
  /** In the upper left corner: `trial, not logged`. */
  readonly note?: string | undefined;
  /** Greyed: nothing is asked of the tape. In the middle of the field stand these words. */
  readonly covered?: readonly string[] | undefined;
}

/** Pixels above and below the field: the names of its sides; one row below, or two where it is narrow. */
export const ABOVE = 18;
const ROW = 18;

/** Height of a tape with the names of its sides, pixels. */
export function tapeHeight(size: number): number {
  return ABOVE + size + ROW * (isNarrow(size) ? 2 : 1);
}

function isNarrow(size: number): boolean {
  return size < 320;
}

/** The tape as a picture of its own. */
export function Tape(props: TapeProps) {
  const { figure, size, behind = false, onSelect } = props;
  const title = titleOf(figure, behind);
  return (
    <svg
      class="figure"
      width={size}
      height={tapeHeight(size)}
      viewBox={`0 0 ${size} ${tapeHeight(size)}`}
      role={onSelect ? 'group' : 'img'}
      aria-label={title}
    >
      <title>{title}</title>
      <desc>{targetInWords(figure)}</desc>
      <TapeIn {...props} />
    </svg>
  );
}

export function titleOf({ station }: TargetFigure, behind: boolean): string {
  return `Tape on ${station}, ${behind ? 'seen from behind, looking against the beam' : 'seen along the beam'}`;
}

/** The same inside another picture. */
export function TapeIn(props: TapeProps) {
  const { figure, size, window = fitted(figure), behind = false, cursor, note, covered } = props;
  const scale = tapeScale(window, size, behind);
  return (
    <g>
      <Sides figure={figure} size={size} behind={behind} />
      {/* biome-ignore lint/a11y/noSvgWithoutTitle: an inner picture, which clips what it contains */}
      <svg x="0" y={ABOVE} width={size} height={size} overflow="hidden">
        <g opacity={covered ? 0.5 : undefined}>
          <Field figure={figure} scale={scale} />
          <Footprint figure={figure} scale={scale} />
          <Names figure={figure} scale={scale} />
          <Marks
            figure={figure}
            scale={scale}
            behind={behind}
            letters={lettersOf(figure.places)}
            selected={props.selected}
            onSelect={props.onSelect}
          />
        </g>
        {note !== undefined && (
          <text class="name halo" x="8" y="15">
            {note}
          </text>
        )}
        {cursor && <Cursor cursor={cursor} scale={scale} />}
        {covered && <Covered words={covered} scale={scale} />}
      </svg>
      <rect class="rule" x="0.5" y={ABOVE + 0.5} width={size - 1} height={size - 1} rx="3" />
    </g>
  );
}

/** Pixels below the upper and the lower third. */
function Covered({ words, scale: { size } }: { readonly words: readonly string[]; readonly scale: TapeScale }) {
  return (
    <g>
      {words.map((text, k) => (
        <text
          key={text}
          class={k === 0 ? 'name halo' : 'small halo'}
          x={px(size / 2)}
          y={px(size * (k === 0 ? 0.32 : 0.7))}
          text-anchor="middle"
        >
          {text}
        </text>
      ))}
    </g>
  );
}

/** `▴ up` above, `◂ left (machine right)`, `▾ down` and `right (machine left) ▸` below. */
function Sides({ figure: { frame }, size, behind }: Pick<TapeProps, 'figure' | 'size'> & { readonly behind: boolean }) {
  const sides = sidesOf(frame, behind);
  const words = (side: Side): readonly [string, string] => {
    const [first = '', second] = sideInWords(side, frame.runs);
    return [first, second === undefined ? '' : `(${second})`];
  };
  const [[left, machineLeft], [right, machineRight]] = [words(sides.left), words(sides.right)];
  const y = ABOVE + size + 13;
  const ends = isNarrow(size)
    ? { left: `◂ ${left}`, right: `${right} ▸` }
    : { left: `◂ ${left} ${machineLeft}`.trim(), right: `${`${right} ${machineRight}`.trim()} ▸` };
  const upward = (side: Side) => words(side).join(' ').trim();
  return (
    <g>
      <text class="small" x={px(size / 2)} y="12" text-anchor="middle">{`▴ ${upward(sides.top)}`}</text>
      <text class="small" x="0" y={y}>
        {ends.left}
      </text>
      <text class="small" x={px(size / 2)} y={y} text-anchor="middle">{`▾ ${upward(sides.bottom)}`}</text>
      <text class="small" x={size} y={y} text-anchor="end">
        {ends.right}
      </text>
      {isNarrow(size) && (
        <>
          <text class="small" x="0" y={y + ROW - 3}>
            {machineLeft}
          </text>
          <text class="small" x={size} y={y + ROW - 3} text-anchor="end">
            {machineRight}
          </text>
        </>
      )}
    </g>
  );
}
