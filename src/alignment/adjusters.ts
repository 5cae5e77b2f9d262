/**
 * What a hand can move, as numbers that a planner can choose: each adjuster has one amount, a step that a hand
 * can do, and a cost. Amounts: turns (positive = in) for screws and pistons, mm for shifts.
 *
 * Costs (common practice, no source): a screw 1; the tube 4 and the first mirror's block 4, both ways of either
 * together; other blocks 6; piston 5, because unequal screws steer while they push.
 */
import type { Direction, Displacement } from '../model/index.ts';
import { directionVector, tubeShift } from '../optics/index.ts';
import { NO_MOVE, TUBE, withShift, withTubeMove, withTurn, type Move } from './move.ts';
import { pistonEffect, type ScrewPlace, type Station, type System } from './system.ts';

export interface Adjuster {
  readonly kind: 'turn' | 'piston' | 'shift';
  readonly part: string;
  /** The screw that is turned; for a piston all of the mirror's. */
  readonly screw?: string;
  /** Unit displacement of a shift, machine axes. */
  readonly axis?: Displacement;
  /** Coarse and fine: what a hand can do, and what it can do with patience. */
  readonly steps: readonly [coarse: number, fine: number];
  apply(move: Move, amount: number): Move;
}

/** Adjusters that are chosen together, at one cost. */
export interface Choice {
  readonly adjusters: readonly Adjuster[];
  readonly cost: number;
}

const TURN_STEPS = [1 / 16, 1 / 32] as const;
const SHIFT_STEPS = [0.25, 0.25] as const;
const COST = { screw: 1, tube: 4, firstBlock: 4, block: 6, piston: 5 } as const;

export function turnOf(screw: ScrewPlace): Adjuster {
  return { kind: 'turn', part: screw.part, screw: screw.screw, steps: TURN_STEPS, apply: (move, turns) => withTurn(move, screw.part, screw.screw, turns) };
}

/** Ways to turn the screws of one mirror: none, one, or two; two are enough to steer any way. */
export function steering(screws: readonly ScrewPlace[]): Choice[] {
  const turns = screws.map(turnOf);
  const one = turns.map((turn) => ({ adjusters: [turn], cost: COST.screw }));
  const two = turns.flatMap((first, i) => turns.slice(i + 1).map((second) => ({ adjusters: [first, second], cost: 2 * COST.screw })));
  return [NOTHING, ...one, ...two];
}

export const NOTHING: Choice = { adjusters: [], cost: 0 };

/** Ways to shift the tube or a block before or at a station, each across its beam or as the workbook says. */
export function shifting(of: System, target: Station): Choice[] {
  const blocks = of.stations.filter((station) => station.index <= target.index && movesOf(station).length > 0);
  return [NOTHING, tube(of), ...blocks.map((station) => block(station))];
}

function tube(of: System): Choice {
  const first = of.stations[0]!;
  const adjusters = across(first).map((axis) => shiftOf(TUBE, axis, (move, by) => withTubeMove(move, { ...tubeShift(of.layout, by), turnRight: 0, turnUp: 0 })));
  return { adjusters, cost: COST.tube };
}

function block(station: Station): Choice {
  const adjusters = movesOf(station).map((axis) => shiftOf(station.name, axis, (move, by) => withShift(move, station.name, by)));
  return { adjusters, cost: station.index === 0 ? COST.firstBlock : COST.block };
}

function shiftOf(part: string, axis: Displacement, shift: (move: Move, by: Displacement) => Move): Adjuster {
  return {
    kind: 'shift', part, axis, steps: SHIFT_STEPS,
    apply: (move, amount) => amount === 0 ? move : shift(move, [axis[0] * amount, axis[1] * amount, axis[2] * amount]),
  };
}

/** The workbook's `moves`; by default the first mirror's block across its beam, and no other. */
function movesOf(station: Station): Displacement[] {
  const named = station.element.moves;
  if (named) return distinctAxes(named);
  return station.index === 0 && station.element.kind === 'mirror' ? across(station) : [];
}

/** Each direction works both ways, so `left` and `right` are one. */
function distinctAxes(directions: readonly Direction[]): Displacement[] {
  const axes = directions.map((direction) => directionVector(direction).map(Math.abs) as unknown as Displacement);
  return axes.filter((axis, i) => axes.findIndex((other) => other.every((part, k) => part === axis[k])) === i);
}

function across(station: Station): Displacement[] {
  return [station.viewer.rightWord, station.viewer.upWord].map((word) => directionVector(word).map(Math.abs) as unknown as Displacement);
}

/** Pushing one mirror straight back or forward with all three screws. */
export function pushing(of: System, mirrors: readonly number[]): Choice[] {
  const pistons = mirrors.filter((mirror) => pistonEffect(of, mirror) !== undefined).map((mirror): Choice => {
    const screws = of.screws.filter((screw) => screw.mirror === mirror);
    const piston: Adjuster = {
      kind: 'piston', part: screws[0]!.part, steps: TURN_STEPS,
      apply: (move, turns) => screws.reduce((sum, { part, screw }) => withTurn(sum, part, screw, turns), move),
    };
    return { adjusters: [piston], cost: COST.piston };
  });
  return [NOTHING, ...pistons];
}

export function moveOf(adjusters: readonly Adjuster[], amounts: readonly number[]): Move {
  return adjusters.reduce((move, adjuster, i) => adjuster.apply(move, amounts[i]!), NO_MOVE);
}

/** Whether the marks at a station move with it: a mirror's screws never move the mark on their own mirror. */
export function affects(of: System, { kind, part }: Adjuster, station: Station): boolean {
  const index = of.stations.findIndex(({ name }) => name === part);
  return kind === 'shift' ? index <= station.index : index < station.index;
}
