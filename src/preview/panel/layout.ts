/** Where the parts of the panel stand, from the size of its container alone: no text and no state changes it. */
import { tapeHeight } from '../../drawing/index.ts';

/** Pixels. */
export interface Layout {
  readonly mode: 'narrow' | 'middle' | 'wide';
  readonly strip: number;
  readonly path: number;
  readonly bar: number;
  /** Width and height of the tape's field. */
  readonly tape: number;
  /** Below the pinned parts the rest scrolls; in a low window only the strip is pinned. */
  readonly pinned: 'all' | 'strip';
}

/** Widths from which on there is one more column, pixels. */
const MIDDLE = 480;
const WIDE = 700;
/** Beside the tape, with the margins: the shots; shots and bench. */
const BESIDE = { middle: 208, wide: 360 } as const;
/** Above and below the tape where it is beside the bench: strip, path, bar, its sides, the disclosures. */
const AROUND = 320;
export const PATH_WITHOUT_WORDS = 62;
const SMALLEST_TAPE = 240;
/** What must be left to scroll. */
const LEFT = 160;

export const marginOf = (width: number) => (width < 400 ? 12 : 16);

export function layoutFor(width: number, height: number): Layout {
  const mode = width < MIDDLE ? 'narrow' : width < WIDE ? 'middle' : 'wide';
  const [strip, bar] = [mode === 'narrow' ? 112 : 72, 38];
  const whole = { mode, strip, bar, path: mode === 'narrow' ? 86 : 90, tape: tapeIn(mode, width, height) } as const;
  const left = (layout: Omit<Layout, 'pinned'>) =>
    height - layout.strip - layout.path - layout.bar - (mode === 'wide' ? 0 : tapeHeight(layout.tape));
  if (left(whole) >= LEFT && isInView(whole, height)) return { ...whole, pinned: 'all' };
  const low = { ...whole, path: PATH_WITHOUT_WORDS };
  const shrunk = {
    ...low,
    tape: Math.max(Math.min(low.tape, SMALLEST_TAPE), low.tape - Math.max(0, LEFT - left(low))),
  };
  return left(shrunk) >= LEFT && isInView(shrunk, height)
    ? { ...shrunk, pinned: 'all' }
    : { ...whole, pinned: 'strip' };
}

function tapeIn(mode: Layout['mode'], width: number, height: number): number {
  if (mode === 'narrow') return Math.max(0, width - 2 * marginOf(width));
  if (mode === 'middle') return width - BESIDE.middle;
  return Math.max(SMALLEST_TAPE, Math.min(width - BESIDE.wide, height - AROUND));
}

function isInView({ mode, strip, path, bar, tape }: Omit<Layout, 'pinned'>, height: number): boolean {
  return mode !== 'wide' || strip + path + bar + tapeHeight(tape) <= height;
}
