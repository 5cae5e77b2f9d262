/**
 * The machine's directions as you stand in front of it, x = right, y = rear, z = up, and the frame in which a mark is
 * read: the viewer looks along the beam, right = beam direction × up, where up = rear on vertical legs.
 */

import type { Direction, Displacement } from '../../model/index.ts';

export const DIRECTIONS = ['left', 'right', 'front', 'rear', 'up', 'down'] as const satisfies readonly Direction[];

const VECTORS: Readonly<Record<Direction, Displacement>> = {
  left: [-1, 0, 0],
  right: [1, 0, 0],
  front: [0, -1, 0],
  rear: [0, 1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

const OPPOSITES: Readonly<Record<Direction, Direction>> = {
  left: 'right', right: 'left', front: 'rear', rear: 'front', up: 'down', down: 'up',
};

export function isDirection(word: string): word is Direction {
  return (DIRECTIONS as readonly string[]).includes(word);
}

/** The unit vector of a direction in machine axes. */
export function directionVector(direction: Direction): Displacement {
  return VECTORS[direction];
}

export function opposite(direction: Direction): Direction {
  return OPPOSITES[direction];
}

export function isVertical(leg: Direction): boolean {
  return leg === 'up' || leg === 'down';
}

/** The viewer's right and up on a leg, as unit vectors in machine axes. */
export function viewerFrame(leg: Direction): { readonly right: Displacement; readonly up: Displacement } {
  const up = VECTORS[isVertical(leg) ? 'rear' : 'up'];
  return { right: cross(VECTORS[leg], up), up };
}

function cross(a: Displacement, b: Displacement): Displacement {
  // `+ 0` makes 0 of -0, which would otherwise show in JSON and in comparisons
  return [a[1] * b[2] - a[2] * b[1] + 0, a[2] * b[0] - a[0] * b[2] + 0, a[0] * b[1] - a[1] * b[0] + 0];
}
