/**
 * What can be turned at the machine now, by the log: the free directions of each screw, the nuts that hold it, and
 * whether the tube is new.
 */
import { doubts } from './doubts.ts';
import { canTurn } from './ends.ts';
import { withLocking, RESPONSES, afterNewTube, needsLoosening, type Move } from '../machine/index.ts';
import type { State } from './state.ts';

/** Restrictions on turns. */
export interface Hands {
  /** @param sign of the turn: 1 in, −1 out */
  canTurn(part: string, screw: string, sign: 1 | -1): boolean;
  /** Whether the nuts of a mirror must be loosened before its screws are turned. */
  needsLoosening(part: string): boolean;
  /** A move of this mirror's screws, with the process noise of loosening its nuts if they must be loosened. */
  loosened(move: Move, part: string): Move;
  /**
   * Maximum turn of a screw of this mirror at once, turns: small while the log and the machine cell contradict each
   * other about it.
   */
  most(part: string): number;
  /** Whether the tube was replaced, while the mirrors may still fit the old one. */
  readonly isTubeNew: boolean;
}

/** Without any restriction by nuts or ends. */
export const FREE: Hands = {
  canTurn: () => true,
  needsLoosening: () => false,
  loosened: (move) => move,
  most: () => Infinity,
  isTubeNew: false,
};

/**
 * Turns: enough to distinguish a wrong turn from a mount that is described wrongly, and not enough to lose the beam.
 */
const TO_TELL = 1 / 4;

export function handsNow(state: State): Hands {
  const { system } = state;
  const { mount, unmoved } = doubts(state);
  const isDoubtful = (part: string) =>
    (mount !== undefined &&
      mount.responses < RESPONSES &&
      system?.machine.path.some((element) => element.name === part && element.mount === mount.name) === true) ||
    unmoved?.turns.some((turn) => turn.part === part) === true;
  return {
    canTurn: (part, screw, sign) => canTurn(state, part, screw, sign),
    needsLoosening: (part) => needsLoosening(state, part),
    loosened: (move, part) => (system && needsLoosening(state, part) ? withLocking(move, system, part) : move),
    most: (part) => (isDoubtful(part) ? TO_TELL : Infinity),
    isTubeNew: afterNewTube(state),
  };
}
