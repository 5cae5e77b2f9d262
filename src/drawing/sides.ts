/** What the sides of a tape are called, by the viewer and by the machine. */
import { isVertical, opposite, type Direction, type StationReport } from '../model/index.ts';

export interface Side {
  readonly viewer: 'right' | 'left' | 'up' | 'down';
  readonly machine: Direction;
}

export type Sides = Readonly<Record<'right' | 'left' | 'top' | 'bottom', Side>>;

/**
 * By where they are on the paper. Seen from behind, looking against the beam, right and left change places on the paper;
 * what they are called does not change.
 */
export function sidesOf({ right, up }: StationReport['frame'], behind: boolean): Sides {
  const one: Side = { viewer: 'right', machine: right };
  const other: Side = { viewer: 'left', machine: opposite(right) };
  return {
    right: behind ? other : one,
    left: behind ? one : other,
    top: { viewer: 'up', machine: up },
    bottom: { viewer: 'down', machine: opposite(up) },
  };
}

/** On an upright leg the machine's word alone is used; else both where they differ. */
export function sideInWords({ viewer, machine }: Side, runs: Direction): readonly string[] {
  if (isVertical(runs)) return [machine];
  return viewer === machine ? [viewer] : [viewer, `machine ${machine}`];
}
