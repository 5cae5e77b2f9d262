/**
 * The risk of the advice: parts moved, or screws turned far, while a mark is unexplained, and moves with a low
 * probability of success. Turns in turns, chances 0 … 1.
 */
import type { Step } from '../../src/model/index.ts';
import { placeKey, type Round } from '../simulation/technician.ts';

export interface Harm {
  /** Rounds in which something was turned or shifted. */
  readonly moves: number;
  /** Of them, those with a chance of success. */
  readonly withChance: number;
  /** Moves of the tube or a block while a mark is unexplained. */
  readonly bodies: number;
  /** Turns above the bound while a mark is unexplained. */
  readonly overturns: number;
  readonly below80: number;
  readonly below50: number;
  /** The last sentence printed with each move below 80 %, after the bound that it is below. */
  readonly reasons: readonly string[];
  /**
   * Known only to the simulation: moves while the newest mark of some place was misread, and those of the tube or a
   * block.
   */
  readonly misled: { readonly moves: number; readonly bodies: number };
}

/** mm between a mark and its reading that reading noise does not explain. */
export const MISREAD = 2;

/** While a mark is unexplained a screw is turned by no more than the larger of this and its last turn. */
const CAREFUL_TURN = 1 / 4;
/** Rounding of a printed amount. */
const NOTHING = 1e-9;

export function harmIn(log: readonly Round[]): Harm {
  const last = new Map<string, number>();
  const misread = new Map<string, boolean>();
  return log.reduce((sofar, { evaluation: { unexplained, chance }, done, marks }) => {
    const moves = done.filter(isMove);
    const one =
      moves.length === 0 ? NONE : { ...harmOf(moves, unexplained > 0, chance, last), misled: misledBy(moves, misread) };
    for (const move of moves) if (move.kind === 'turn') last.set(screwOf(move), Math.abs(move.turns));
    for (const mark of marks) misread.set(placeKey(mark.station, mark.place), mark.misread > MISREAD);
    return added(sofar, one);
  }, NONE);
}

export const NONE: Harm = {
  moves: 0,
  withChance: 0,
  bodies: 0,
  overturns: 0,
  below80: 0,
  below50: 0,
  reasons: [],
  misled: { moves: 0, bodies: 0 },
};

export function added(one: Harm, other: Harm): Harm {
  return {
    moves: one.moves + other.moves,
    withChance: one.withChance + other.withChance,
    bodies: one.bodies + other.bodies,
    overturns: one.overturns + other.overturns,
    below80: one.below80 + other.below80,
    below50: one.below50 + other.below50,
    reasons: [...one.reasons, ...other.reasons],
    misled: { moves: one.misled.moves + other.misled.moves, bodies: one.misled.bodies + other.misled.bodies },
  };
}

type Move = Extract<Step, { kind: 'turn' | 'shift' }>;

function isMove(step: Step): step is Move {
  return step.kind === 'turn' || step.kind === 'shift';
}

function screwOf({ part, screw }: Extract<Step, { kind: 'turn' }>): string {
  return `${part} ${screw}`;
}

/** The end of a reason is about the move, what comes before it about the marks. */
function lastSentence(reason: string): string {
  return reason.split(/(?<=\.) /).at(-1)!;
}

function misledBy(moves: readonly Move[], misread: ReadonlyMap<string, boolean>): Harm['misled'] {
  const isMisled = [...misread.values()].some((is) => is);
  return { moves: isMisled ? 1 : 0, bodies: isMisled && moves.some(({ kind }) => kind === 'shift') ? 1 : 0 };
}

function harmOf(
  moves: readonly Move[],
  isUnexplained: boolean,
  chance: number | undefined,
  last: ReadonlyMap<string, number>,
): Omit<Harm, 'misled'> {
  const isFar = (move: Move) =>
    move.kind === 'turn' && Math.abs(move.turns) > Math.max(CAREFUL_TURN, last.get(screwOf(move)) ?? 0) + NOTHING;
  const below = (bound: number) => (chance !== undefined && chance < bound ? 1 : 0);
  return {
    moves: 1,
    withChance: chance === undefined ? 0 : 1,
    bodies: isUnexplained && moves.some(({ kind }) => kind === 'shift') ? 1 : 0,
    overturns: isUnexplained ? moves.filter(isFar).length : 0,
    below80: below(0.8),
    below50: below(0.5),
    reasons: below(0.8)
      ? [
          `below ${below(0.5) ? 50 : 80} %: ${lastSentence(moves.find(({ why }) => why !== undefined)?.why ?? 'no reason')}`,
        ]
      : [],
  };
}
