/**
 * The effect of completed steps on the machine: turns, shifts, and the process noise of loosening and tightening lock
 * nuts.
 */
import type { Step } from '../model/index.ts';
import { withLocking } from './locking.ts';
import { joined, NO_MOVE, withTurn, type Move } from './move.ts';
import { shifted } from './shifted.ts';
import type { System } from './system.ts';

/** The move of one step; undefined if it moves nothing. */
export function moveOfStep(system: System, step: Step): Move | undefined {
  switch (step.kind) {
    case 'turn':
      return withTurn(NO_MOVE, step.part, step.screw, step.turns);
    case 'shift':
      return shifted(system, step.part, step.by, step.end);
    case 'lock':
      return withLocking(NO_MOVE, system, step.part);
    default:
      return undefined;
  }
}

/** The move of all steps together. */
export function moveOfSteps(system: System, steps: readonly Step[]): Move {
  return steps.reduce((move, step) => joined(move, moveOfStep(system, step) ?? NO_MOVE), NO_MOVE);
}
