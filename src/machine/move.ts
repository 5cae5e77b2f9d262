/**
 * What is moved at once: screws turned, blocks and the tube shifted, and what nobody meant to move but may have. A value;
 * what it does to the machine is in `belief.ts`.
 *
 * Turns in turns (positive = in); shifts mm in the machine's axes; the tube in the viewer's frame of its beam (mm and
 * slopes); unmeant disturbances as variances, mm² and slope².
 */
import type { Displacement } from '../model/index.ts';

export interface Disturbance {
  /** Of either slope of a mirror, or of the tube's direction. */
  readonly tilt: number;
  /** Of a mirror along its normal; of the tube's exit in either direction. */
  readonly place: number;
  /** Of either coordinate of the part's own aperture. */
  readonly aperture: number;
}

export interface TubeMove {
  readonly right: number;
  readonly up: number;
  readonly turnRight: number;
  readonly turnUp: number;
}

export interface Move {
  /** By `screwKey`. */
  readonly turns: ReadonlyMap<string, number>;
  readonly shifts: ReadonlyMap<string, Displacement>;
  readonly tube?: TubeMove;
  /** By part; `tube` is a part. */
  readonly disturbed: ReadonlyMap<string, Disturbance>;
}

export const NO_MOVE: Move = { turns: new Map(), shifts: new Map(), disturbed: new Map() };

export const TUBE = 'tube';

export function screwKey(part: string, screw: string): string {
  return `${part}/${screw}`;
}

export function withTurn(move: Move, part: string, screw: string, turns: number): Move {
  const key = screwKey(part, screw);
  return { ...move, turns: new Map(move.turns).set(key, (move.turns.get(key) ?? 0) + turns) };
}

export function withShift(move: Move, part: string, by: Displacement): Move {
  const [x, y, z] = move.shifts.get(part) ?? [0, 0, 0];
  return { ...move, shifts: new Map(move.shifts).set(part, [x + by[0], y + by[1], z + by[2]]) };
}

export function withTubeMove(move: Move, by: TubeMove): Move {
  const { right, up, turnRight, turnUp } = move.tube ?? { right: 0, up: 0, turnRight: 0, turnUp: 0 };
  return {
    ...move,
    tube: { right: right + by.right, up: up + by.up, turnRight: turnRight + by.turnRight, turnUp: turnUp + by.turnUp },
  };
}

/** Both moves at once; disturbances of one part add up. */
export function joined(one: Move, other: Move): Move {
  const turned = [...other.turns].reduce(
    (move, [key, turns]) => ({ ...move, turns: new Map(move.turns).set(key, (move.turns.get(key) ?? 0) + turns) }),
    one,
  );
  const shifts = [...other.shifts].reduce((move, [part, by]) => withShift(move, part, by), turned);
  const tube = other.tube ? withTubeMove(shifts, other.tube) : shifts;
  return [...other.disturbed].reduce(
    (move, [part, by]) => withDisturbance(move, part, sum(move.disturbed.get(part), by)),
    tube,
  );
}

function sum(one: Disturbance | undefined, other: Disturbance): Disturbance {
  return one
    ? { tilt: one.tilt + other.tilt, place: one.place + other.place, aperture: one.aperture + other.aperture }
    : other;
}

export function withDisturbance(move: Move, part: string, by: Disturbance): Move {
  return { ...move, disturbed: new Map(move.disturbed).set(part, by) };
}
