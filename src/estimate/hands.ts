/** What hands can do at the machine now, by what the log says: which way each screw goes, which nuts hold it, whose aim is new. */
import { doubts } from './doubts.ts';
import { canTurn } from './ends.ts';
import { withLocking, RESPONSES, afterNewTube, needsLoosening, type Move } from '../machine/index.ts';
import type { State } from './state.ts';

export interface Hands {
  /** @param sign of the turn: 1 in, −1 out */
  canTurn(part: string, screw: string, sign: 1 | -1): boolean;
  /** Whether the nuts of a mirror are loosened before its screws are turned. */
  needsLoosening(part: string): boolean;
  /** A move of this mirror's screws, with what loosening its nuts leaves open where they are loosened first. */
  loosened(move: Move, part: string): Move;
  /** The most that a screw of this mirror is turned at once, turns: little while the log and the machine cell contradict each other about it. */
  most(part: string): number;
  /** Whether the tube was changed, and the mirrors may still fit where the old one was. */
  readonly isTubeNew: boolean;
}

/** Where nothing is said of nuts and ends. */
export const FREE: Hands = {
  canTurn: () => true,
  needsLoosening: () => false,
  loosened: (move) => move,
  most: () => Infinity,
  isTubeNew: false,
};

/** Turns: enough to tell a slip of one turn from a mount that is described wrongly, and not enough to lose the beam. */
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
