/** Loosening and tightening lock nuts each tilt the mirror a little, nobody knows which way: `lockTilt`, rad. */
import { withDisturbance, type Move } from './move.ts';
import { prior, type System } from './system.ts';

export function withLocking(move: Move, of: System, part: string): Move {
  return withDisturbance(move, part, { tilt: prior(of.machine, 'lockTilt') ** 2, place: 0, aperture: 0 });
}
