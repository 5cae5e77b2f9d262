/** A logged or advised shift, as a move of the tube or of a block. */
import type { Displacement } from '../model/index.ts';
import { tubeEndShift, tubeShift } from '../optics/index.ts';
import { NO_MOVE, TUBE, withDisturbance, withShift, withTubeMove, type Move } from './move.ts';
import { prior, type System } from './system.ts';

/** @param by mm, machine axes; with `end`, of that end of the tube only */
export function shifted(system: System, part: string, by: Displacement, end?: 'exit' | 'tail'): Move {
  return part === TUBE ? tubeMove(system, by, end) : withShift(NO_MOVE, part, by);
}

/**
 * A shift of one end needs the places of the holders. Without them its effect is unknown, and only process noise is
 * added.
 */
function tubeMove(system: System, by: Displacement, end: 'exit' | 'tail' | undefined): Move {
  if (end === undefined) return withTubeMove(NO_MOVE, { ...tubeShift(system.layout, by), turnRight: 0, turnUp: 0 });
  const { holders } = system.machine.source;
  const turned = holders && tubeEndShift(system.layout, holders, end, by);
  if (turned) return withTubeMove(NO_MOVE, turned);
  return withDisturbance(NO_MOVE, TUBE, {
    tilt: prior(system.machine, 'tubeAngle') ** 2,
    place: Math.hypot(...by) ** 2,
    aperture: 0,
  });
}
