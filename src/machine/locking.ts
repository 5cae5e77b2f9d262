/** Loosening and tightening lock nuts each tilt the mirror a little, in an unknown direction: `lockTilt`, rad. */
import { withDisturbance, type Move } from './move.ts';
import { prior, type System } from './system.ts';

/** The move, with the process noise of loosening or tightening the nuts of a part once. */
export function withLocking(move: Move, system: System, part: string): Move {
  return withDisturbance(move, part, { tilt: prior(system.machine, 'lockTilt') ** 2, place: 0, aperture: 0 });
}
