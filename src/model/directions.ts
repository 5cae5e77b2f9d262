/**
 * The six words for directions, and the frame of a viewer who looks along the beam.
 *
 * The words are the machine's own, as you stand in front of it. They are kept with the numbers everywhere, because a
 * mark's right can be the machine's left, and a technician must see both.
 *
 * Axes: machine frame, x right, y rear, z up; unit vectors with exact components 0 and ±1. The viewer's frame of a beam
 * that runs along d: right = d × up, up = z, or y (rear) where d is vertical. The viewer sees the *burnt* side of the
 * tape.
 */
import type { Direction, Displacement } from './quantity.ts';

/** The six directions of the machine. */
export const DIRECTIONS = ['left', 'right', 'front', 'rear', 'up', 'down'] as const satisfies readonly Direction[];

/** Whether a word is one of the six directions. */
export function isDirection(word: string): word is Direction {
  return (DIRECTIONS as readonly string[]).includes(word);
}

/** On vertical beams the viewer's up is ambiguous. */
export function isVertical(direction: Direction): boolean {
  return direction === 'up' || direction === 'down';
}

const VECTORS: Readonly<Record<Direction, Displacement>> = {
  left: [-1, 0, 0],
  right: [1, 0, 0],
  front: [0, -1, 0],
  rear: [0, 1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

const OPPOSITES: Readonly<Record<Direction, Direction>> = {
  left: 'right',
  right: 'left',
  front: 'rear',
  rear: 'front',
  up: 'down',
  down: 'up',
};

/** The unit vector of a word in the machine frame. */
export function directionVector(direction: Direction): Displacement {
  return VECTORS[direction];
}

/** The opposite direction. */
export function opposite(direction: Direction): Direction {
  return OPPOSITES[direction];
}

/**
 * The word for the largest component of a vector of any length. Of equal components x wins over y and y over z. The
 * zero vector gives `right`; do not rely on it.
 */
export function nearestDirection(v: Displacement): Direction {
  const [x, y, z] = [Math.abs(v[0]), Math.abs(v[1]), Math.abs(v[2])];
  if (x >= y && x >= z) return v[0] < 0 ? 'left' : 'right';
  if (y >= z) return v[1] < 0 ? 'front' : 'rear';
  return v[2] < 0 ? 'down' : 'up';
}

/** The frame of a viewer who looks along the beam, as unit vectors of the machine frame and as machine directions. */
export interface Viewer {
  readonly along: Displacement;
  readonly right: Displacement;
  readonly up: Displacement;
  readonly rightWord: Direction;
  readonly upWord: Direction;
}

/**
 * The viewer's frame of a beam that runs in `direction`: right = direction × up; up is z, or rear on a vertical beam.
 */
export function viewer(direction: Direction): Viewer {
  return VIEWERS[direction];
}

function lookAlong(direction: Direction): Viewer {
  const upWord = isVertical(direction) ? 'rear' : 'up';
  const [[dx, dy, dz], [ux, uy, uz]] = [VECTORS[direction], VECTORS[upWord]];
  const rightWord = nearestDirection([dy * uz - dz * uy, dz * ux - dx * uz, dx * uy - dy * ux]);
  return { along: VECTORS[direction], right: VECTORS[rightWord], up: VECTORS[upWord], rightWord, upWord };
}

// Six constants, computed once: the trace uses one at every leg.
const VIEWERS: Readonly<Record<Direction, Viewer>> = {
  left: lookAlong('left'),
  right: lookAlong('right'),
  front: lookAlong('front'),
  rear: lookAlong('rear'),
  up: lookAlong('up'),
  down: lookAlong('down'),
};

/** Both directions of one coordinate of a mark: the viewer's words, on a vertical beam the machine's. */
export function waysOf(part: 'right' | 'up', runs: Direction): string {
  if (part === 'right') return 'left or right';
  return isVertical(runs) ? 'front or rear' : 'up or down';
}
