/**
 * The adjusters among which the planner chooses: each has one amount, a smallest step, and a cost. Amounts: turns
 * (positive = in) for screws and pistons, mm for shifts.
 *
 * Costs (common practice, no source): a screw 1; lock nuts of a mirror, loosened and tightened, 2; the tube 4 and the
 * first mirror's block 4, each with both axes together; the tube and that block moved by the same amount 4.5; both ends
 * of the tube separately 6; other blocks 6; piston 5, because unequal screws also tilt.
 */
import { COST } from './costs.ts';
import type { Direction, Displacement } from '../model/index.ts';
import { directionVector, tubeEndShift, tubeShift } from '../optics/index.ts';
import {
  NO_MOVE,
  TUBE,
  withShift,
  withTubeMove,
  withTurn,
  pistonEffect,
  type Move,
  type ScrewPlace,
  type Station,
  type System,
} from '../machine/index.ts';
import type { Hands } from '../estimate/index.ts';

/** One amount that the planner can choose. */
export interface Adjuster {
  readonly kind: 'turn' | 'piston' | 'shift';
  readonly part: string;
  /** The screw that is turned; absent for a piston, which turns all screws of the mirror. */
  readonly screw?: string;
  /** Unit displacement of a shift, machine axes. */
  readonly axis?: Displacement;
  /** The end of the tube, if only one end is shifted. */
  readonly end?: 'exit' | 'tail';
  /** The only possible direction, 1 in or −1 out, if the screw is at its end in the other one. */
  readonly only?: 1 | -1;
  /** Maximum amount at once, turns or mm; absent without a special limit. */
  readonly most?: number;
  /** Steps of a hand: the usual one, and one that needs patience. */
  readonly steps: readonly [coarse: number, fine: number];
  apply(move: Move, amount: number): Move;
}

/** A candidate set of adjusters, at one cost. */
export interface Choice {
  readonly adjusters: readonly Adjuster[];
  readonly cost: number;
}

const TURN_STEPS = [1 / 16, 1 / 32] as const;
const SHIFT_STEPS = [0.25, 0.25] as const;
/** The adjuster that turns one screw. */
export function turnAdjuster(hands: Hands, { part, screw }: ScrewPlace): Adjuster {
  return {
    kind: 'turn',
    part,
    screw,
    steps: TURN_STEPS,
    most: hands.most(part),
    ...onlySign(possibleSigns(hands, part, [screw])),
    apply: (move, turns) => (turns === 0 ? move : hands.loosened(withTurn(move, part, screw, turns), part)),
  };
}

/** The directions in which all these screws can be turned. */
function possibleSigns(hands: Hands, part: string, screws: readonly string[]): (1 | -1)[] {
  return ([1, -1] as const).filter((sign) => screws.every((screw) => hands.canTurn(part, screw, sign)));
}

function onlySign([one, other]: readonly (1 | -1)[]): Pick<Adjuster, 'only'> {
  return one !== undefined && other === undefined ? { only: one } : {};
}

/** Choices among the screws of one mirror: none, one, or two; two can tilt it in any direction. */
export function steering(hands: Hands, screws: readonly ScrewPlace[]): Choice[] {
  const turns = screws.map((screw) => turnAdjuster(hands, screw));
  const nuts = screws.some(({ part }) => hands.needsLoosening(part)) ? COST.nuts : 0;
  const one = turns.map((turn) => ({ adjusters: [turn], cost: COST.screw + nuts }));
  const two = turns.flatMap((first, i) =>
    turns.slice(i + 1).map((second) => ({ adjusters: [first, second], cost: 2 * COST.screw + nuts })),
  );
  return [NOTHING, ...one, ...two];
}

export const NOTHING: Choice = { adjusters: [], cost: 0 };

/**
 * Choices among shifts of the tube or a block before or at a station, each across its beam or along the axes in the
 * workbook; and the tube together with the first mirror's block, which corrects differing heights.
 */
export function shifting(system: System, target: Station): Choice[] {
  const blocks = system.stations.filter(
    (station) => station.index <= target.index && shiftAxes(system, station).length > 0,
  );
  const first = blocks.find((station) => isFirstMirror(system, station));
  return [
    NOTHING,
    tube(system),
    ...blocks.map((station) => block(system, station)),
    ...(first ? [tubeWithFirstBlock(system, first)] : []),
  ];
}

function tube(system: System): Choice {
  return { adjusters: across(system.stations[0]!).map((axis) => tubeAlong(system, axis)), cost: COST.tube };
}

function tubeAlong(system: System, axis: Displacement): Adjuster {
  return shiftAdjuster(TUBE, axis, (move, by) =>
    withTubeMove(move, { ...tubeShift(system.layout, by), turnRight: 0, turnUp: 0 }),
  );
}

function block(system: System, station: Station): Choice {
  return {
    adjusters: shiftAxes(system, station).map((axis) => blockAlong(station, axis)),
    cost: isFirstMirror(system, station) ? COST.firstBlock : COST.block,
  };
}

function blockAlong(station: Station, axis: Displacement): Adjuster {
  return shiftAdjuster(station.name, axis, (move, by) => withShift(move, station.name, by));
}

/**
 * The tube and the first block, both across the tube's beam: the same shift of both leaves the mark on that mirror
 * unchanged. A shift along the beam that leaves the mirror would change nothing behind it either.
 */
function tubeWithFirstBlock(system: System, first: Station): Choice {
  const sends = directionVector(first.element.sends!);
  const both = across(system.stations[0]!).filter(
    (axis) => !isSameAxis(axis, sends) && shiftAxes(system, first).some((other) => isSameAxis(axis, other)),
  );
  return {
    adjusters: both.flatMap((axis) => [tubeAlong(system, axis), blockAlong(first, axis)]),
    cost: COST.tubeAndBlock,
  };
}

/**
 * Choices that move only the tube: as a whole, by one end, or by both. Its ends only if the machine cell gives its
 * holders. After a new tube these come before any mirror, up to the second mirror: the marks on the first two give the
 * beam's offset and direction, and the mirrors correct only the rest.
 */
export function aiming(system: System, target: Station): Choice[] {
  if (target.index > (system.mirrors[1] ?? target.index)) return [];
  const [exit, tail] = (['exit', 'tail'] as const).map((end) => endOfTube(system, end));
  const ends =
    exit && tail
      ? [
          { adjusters: exit, cost: COST.tube },
          { adjusters: tail, cost: COST.tube },
          { adjusters: [...exit, ...tail], cost: COST.bothEnds },
        ]
      : [];
  return [tube(system), ...ends];
}

/** Undefined if the machine cell gives no holders. */
function endOfTube(system: System, end: 'exit' | 'tail'): Adjuster[] | undefined {
  const { holders } = system.machine.source;
  if (!holders || holders.exit === holders.tail) return undefined;
  return across(system.stations[0]!).map((axis) => ({
    ...shiftAdjuster(TUBE, axis, (move, by) => withTubeMove(move, tubeEndShift(system.layout, holders, end, by)!)),
    end,
  }));
}

function shiftAdjuster(part: string, axis: Displacement, shift: (move: Move, by: Displacement) => Move): Adjuster {
  return {
    kind: 'shift',
    part,
    axis,
    steps: SHIFT_STEPS,
    apply: (move, amount) =>
      amount === 0 ? move : shift(move, [axis[0] * amount, axis[1] * amount, axis[2] * amount]),
  };
}

/**
 * The axes of a block by the workbook's `moves`; by default the first mirror's block across its beam and along it, and
 * no other block.
 */
function shiftAxes(system: System, station: Station): Displacement[] {
  const named = station.element.moves;
  if (named) return distinctAxes(named);
  return isFirstMirror(system, station) ? [...across(station), ...distinctAxes([station.runs])] : [];
}

/** The first mirror need not be the first element: a shutter or a combiner before it has no block that steers. */
function isFirstMirror({ mirrors }: System, { index }: Station): boolean {
  return mirrors[0] === index;
}

/** Axes of directions: `left` and `right` are the same axis. */
function distinctAxes(directions: readonly Direction[]): Displacement[] {
  const axes = directions.map((direction) => directionVector(direction).map(Math.abs) as unknown as Displacement);
  return axes.filter((axis, i) => axes.findIndex((other) => isSameAxis(axis, other)) === i);
}

function isSameAxis(one: Displacement, other: Displacement): boolean {
  return one.every((part, k) => part === other[k]);
}

function across(station: Station): Displacement[] {
  return [station.viewer.rightWord, station.viewer.upWord].map(
    (word) => directionVector(word).map(Math.abs) as unknown as Displacement,
  );
}

/** Choices that push one mirror straight back or forward with all three screws. */
export function pushing(hands: Hands, system: System, mirrors: readonly number[]): Choice[] {
  return [
    NOTHING,
    ...mirrors
      .filter((mirror) => pistonEffect(system, mirror) !== undefined)
      .flatMap((mirror) =>
        piston(
          hands,
          system.screws.filter((screw) => screw.mirror === mirror),
        ),
      ),
  ];
}

/** No choice if one screw is at its end in one direction and another in the other. */
function piston(hands: Hands, screws: readonly ScrewPlace[]): Choice[] {
  const { part } = screws[0]!;
  const ways = possibleSigns(
    hands,
    part,
    screws.map(({ screw }) => screw),
  );
  if (ways.length === 0) return [];
  const all: Adjuster = {
    kind: 'piston',
    part,
    steps: TURN_STEPS,
    ...onlySign(ways),
    apply: (move, turns) =>
      turns === 0
        ? move
        : hands.loosened(
            screws.reduce((sum, { screw }) => withTurn(sum, part, screw, turns), move),
            part,
          ),
  };
  return [{ adjusters: [all], cost: COST.piston + (hands.needsLoosening(part) ? COST.nuts : 0) }];
}

/** The move by some amounts of adjusters. */
export function moveOf(adjusters: readonly Adjuster[], amounts: readonly number[]): Move {
  return adjusters.reduce((move, adjuster, i) => adjuster.apply(move, amounts[i]!), NO_MOVE);
}

/** Whether an adjuster affects the marks at a station: a mirror's screws never move the mark on their own mirror. */
export function affects(system: System, { kind, part }: Adjuster, station: Station): boolean {
  const index = system.stations.findIndex(({ name }) => name === part);
  return kind === 'shift' ? index <= station.index : index < station.index;
}
