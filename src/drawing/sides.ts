/** The names of a tape's sides, for the viewer and for the machine. */
import { isVertical, opposite, type Direction, type StationReport } from '../model/index.ts';

export interface Side {
  readonly viewer: 'right' | 'left' | 'up' | 'down';
  readonly machine: Direction;
}

export type Sides = Readonly<Record<'right' | 'left' | 'top' | 'bottom', Side>>;

/**
 * By their position in the picture. From behind, looking against the beam, right and left swap in the picture; their
 * names do not.
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

/** On a vertical leg the machine's word only; else both if they differ. */
export function sideInWords({ viewer, machine }: Side, runs: Direction): readonly string[] {
  if (isVertical(runs)) return [machine];
  return viewer === machine ? [viewer] : [viewer, `machine ${machine}`];
}
