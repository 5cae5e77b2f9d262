/**
 * A move: screws turned, blocks and the tube shifted, and unintended disturbances. A value; `estimate/distribution.ts`
 * has its effect.
 *
 * Turns in turns (positive = in); shifts mm in the machine's axes; the tube in the viewer's frame of its beam (mm and
 * slopes); disturbances as variances, mm² and slope².
 */
import type { Displacement } from '../model/index.ts';

/** Process noise of one part. */
export interface Disturbance {
  /** Variance of either slope of a mirror, or of the tube's direction. */
  readonly tilt: number;
  /** Variance of a mirror along its normal; of the tube's exit in either direction. */
  readonly place: number;
  /** Variance of either coordinate of the part's own aperture. */
  readonly aperture: number;
}

export interface TubeMove {
  readonly right: number;
  readonly up: number;
  readonly turnRight: number;
  readonly turnUp: number;
}

/** Everything that one move changes. */
export interface Move {
  /** By `screwKey`. */
  readonly turns: ReadonlyMap<string, number>;
  readonly shifts: ReadonlyMap<string, Displacement>;
  readonly tube?: TubeMove;
  /** By part; `tube` is a part. */
  readonly disturbed: ReadonlyMap<string, Disturbance>;
}

/** The move that changes nothing. */
export const NO_MOVE: Move = { turns: new Map(), shifts: new Map(), disturbed: new Map() };

/** The name of the tube as a part. */
export const TUBE = 'tube';

/** The key of a screw of a part in maps. */
export function screwKey(part: string, screw: string): string {
  return `${part}/${screw}`;
}

/** The move, with one more turn of a screw. */
export function withTurn(move: Move, part: string, screw: string, turns: number): Move {
  const key = screwKey(part, screw);
  return { ...move, turns: new Map(move.turns).set(key, (move.turns.get(key) ?? 0) + turns) };
}

/** The move, with one more shift of a block, mm, machine axes. */
export function withShift(move: Move, part: string, by: Displacement): Move {
  const [x, y, z] = move.shifts.get(part) ?? [0, 0, 0];
  return { ...move, shifts: new Map(move.shifts).set(part, [x + by[0], y + by[1], z + by[2]]) };
}

/** The move, with one more move of the tube. */
export function withTubeMove(move: Move, by: TubeMove): Move {
  const { right, up, turnRight, turnUp } = move.tube ?? { right: 0, up: 0, turnRight: 0, turnUp: 0 };
  return {
    ...move,
    tube: { right: right + by.right, up: up + by.up, turnRight: turnRight + by.turnRight, turnUp: turnUp + by.turnUp },
  };
}

/** Both moves together; disturbances of one part add up. */
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

/** The move, with this disturbance of a part in place of its previous one. */
export function withDisturbance(move: Move, part: string, by: Disturbance): Move {
  return { ...move, disturbed: new Map(move.disturbed).set(part, by) };
}
