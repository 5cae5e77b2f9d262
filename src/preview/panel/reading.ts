/** The mark that is being read: which shot, where the pointer or the keys are, and what was sent already. */
import type { OnTape } from '../../drawing/index.ts';
import type { PanelShot } from '../../model/index.ts';

/** A place for the mark on the tape, mm, and whether it is finer than the reading step. */
export interface Aim {
  readonly at: OnTape;
  readonly isFine: boolean;
}

/** Steps of the reading step with Alt and with Shift. */
const FINE = 1 / 10;
const COARSE = 5;

const STEPS: Readonly<Record<string, readonly [right: number, up: number] | undefined>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Rounded to the step, or to a tenth of it. */
export function snapped({ right, up }: OnTape, resolution: number, isFine: boolean): Aim {
  const step = resolution * (isFine ? FINE : 1);
  const to = (value: number) => Number((Math.round(value / step) * step).toFixed(6)) + 0;
  return { at: { right: to(right), up: to(up) }, isFine };
}

/** The aim after an arrow key; undefined for any other key. From behind, right and left swap on the screen. */
export function moved(
  aim: Aim,
  { key, altKey, shiftKey }: Pick<KeyboardEvent, 'key' | 'altKey' | 'shiftKey'>,
  resolution: number,
  behind: boolean,
): Aim | undefined {
  const way = STEPS[key];
  if (!way) return undefined;
  const by = resolution * (altKey ? FINE : shiftKey ? COARSE : 1);
  const { right, up } = aim.at;
  const isFine = altKey || aim.isFine;
  return snapped({ right: right + (behind ? -1 : 1) * way[0] * by, up: up + way[1] * by }, resolution, isFine);
}

/** A shot in which a mark can be placed. */
export type Readable = PanelShot & { readonly slot: NonNullable<PanelShot['slot']> };

export function isReadable(shot: PanelShot): shot is Readable {
  return shot.slot !== undefined;
}

export function keyOf({ slot: { cell, path } }: Readable): string {
  return `${cell} ${path}`;
}

/** The chosen one, else the first blank that was not sent yet. */
export function askedFor(
  shots: readonly PanelShot[],
  chosen: string | undefined,
  sent: readonly string[],
): Readable | undefined {
  const readable = shots.filter(isReadable);
  return (
    readable.find((shot) => keyOf(shot) === chosen) ??
    readable.find((shot) => shot.state === 'open' && !sent.includes(keyOf(shot)))
  );
}
