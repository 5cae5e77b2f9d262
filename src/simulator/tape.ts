/**
 * What a burnt tape looks like: outlines around the middle of the burn, mm, viewer's frame. The soot and the ragged
 * edge mislead as real ones do; the charred core is the same on opposite sides, so that its middle is the mark.
 */
import type { Draws, Purpose } from './draw.ts';

/** A closed outline, mm from the centre of the aperture. */
export type Outline = readonly { readonly right: number; readonly up: number }[];

/** From the outermost to the middle. */
export interface BurntTape {
  /** Soot that rises on an upright tape, and drifts anywhere on a lying one. */
  readonly smoke: readonly Outline[];
  readonly scorch: Outline;
  readonly brown: Outline;
  readonly core: Outline;
}

/** Even, so that every point has one opposite. */
const POINTS = 40;
/** Diameters of the layers as shares of the burn's. */
const SIZES = { scorch: 1.9, brown: 1.35, core: 0.75 } as const;
/** Shares of the radius by which an edge is ragged. */
const RAGGED = { scorch: 0.3, brown: 0.22, core: 0.14 } as const;
/** mm by which the scorch lies beside the mark. */
const ASIDE = 0.5;
const PUFFS = 5;

/** @param shot identifies the shot, so that two tapes of one place differ as paper does */
export function burntTape(
  draw: Draws,
  burn: { readonly right: number; readonly up: number; readonly size: number },
  isUpright: boolean,
  shot: Purpose,
): BurntTape {
  const aside = (axis: string) => ASIDE * (2 * draw.uniform('tape', ...shot, 'aside', axis) - 1);
  const lean = { right: 0.6 * aside('lean'), up: isUpright ? 1 : 2 * aside('drift') };
  const layer = (name: keyof typeof SIZES, right: number, up: number) =>
    outline(draw, [...shot, name], { right, up }, (SIZES[name] * burn.size) / 2, RAGGED[name], name === 'core');
  const smoke = Array.from({ length: PUFFS }, (_, k) => {
    const away = (k + 1) * 0.45 * burn.size;
    return outline(
      draw,
      [...shot, 'smoke', k],
      { right: burn.right + away * lean.right + 0.3 * aside(`puff ${k}`), up: burn.up + away * lean.up },
      burn.size * (0.75 - 0.1 * k),
      0.35,
      false,
    );
  });
  return {
    smoke,
    scorch: layer('scorch', burn.right + aside('right'), burn.up + aside('up')),
    brown: layer('brown', burn.right + aside('right') / 3, burn.up + aside('up') / 3),
    core: layer('core', burn.right, burn.up),
  };
}

// biome-ignore lint/complexity/useMaxParams: where, how large, how ragged
function outline(
  draw: Draws,
  purpose: Purpose,
  middle: { readonly right: number; readonly up: number },
  radius: number,
  ragged: number,
  isSymmetric: boolean,
): Outline {
  const rough = (k: number) => draw.uniform('edge', ...purpose, isSymmetric ? k % (POINTS / 2) : k);
  return CIRCLE.map(({ x, y }, k) => {
    const next = (k + 1) % POINTS;
    const off = 1 + ragged * (rough(k) + rough(next) - 1);
    return { right: hundredth(middle.right + radius * off * x), up: hundredth(middle.up + radius * off * y) };
  });
}

/** Points on a circle from rational numbers alone, which are the same in every engine: (1 − t²)/(1 + t²), 2t/(1 + t²). */
const CIRCLE = [0, 1, 2, 3].flatMap((quarter) =>
  Array.from({ length: POINTS / 4 }, (_, k) => {
    const t = k / (POINTS / 4);
    const [x, y] = [(1 - t * t) / (1 + t * t), (2 * t) / (1 + t * t)];
    return [
      { x, y },
      { x: -y, y: x },
      { x: -x, y: -y },
      { x: y, y: -x },
    ][quarter]!;
  }),
);

function hundredth(mm: number): number {
  return Math.round(mm * 100) / 100 + 0;
}
