/**
 * What has been moved since the log began, as running sums. A reading remembers the sum of its moment; the
 * difference to the sum of now is what was moved in between. So nothing is ever walked twice, and a state
 * is a value that later cells do not change.
 *
 * Turns in turns (positive = in); shifts mm in the machine's axes; tube in the viewer's frame of its beam
 * (mm and slopes); noise as variances, mm² and slope².
 */
import type { Displacement } from '../model/index.ts';

export interface Noise {
  /** Of either slope of a mirror, or of the tube's direction. */
  readonly tilt: number;
  /** Of either coordinate of a place: the tube's exit, an aperture. */
  readonly place: number;
}

export interface TubeMove {
  readonly right: number;
  readonly up: number;
  readonly turnRight: number;
  readonly turnUp: number;
}

export interface Moved {
  /** By `screwKey`. */
  readonly turns: ReadonlyMap<string, number>;
  /** Sum of the amounts turned, whichever way: what hand noise grows with. */
  readonly turned: ReadonlyMap<string, number>;
  readonly shifts: ReadonlyMap<string, Displacement>;
  readonly tube: TubeMove;
  /** By part; `tube` is a part. */
  readonly noise: ReadonlyMap<string, Noise>;
}

export const NOT_MOVED: Moved = {
  turns: new Map(),
  turned: new Map(),
  shifts: new Map(),
  tube: { right: 0, up: 0, turnRight: 0, turnUp: 0 },
  noise: new Map(),
};

export const TUBE = 'tube';

export function screwKey(part: string, screw: string): string {
  return `${part}/${screw}`;
}

export function withTurn(moved: Moved, part: string, screw: string, turns: number): Moved {
  const key = screwKey(part, screw);
  return { ...moved, turns: added(moved.turns, key, turns), turned: added(moved.turned, key, Math.abs(turns)) };
}

export function withShift(moved: Moved, part: string, by: Displacement): Moved {
  const [x, y, z] = moved.shifts.get(part) ?? [0, 0, 0];
  return { ...moved, shifts: new Map(moved.shifts).set(part, [x + by[0], y + by[1], z + by[2]]) };
}

export function withTubeMove(moved: Moved, by: TubeMove): Moved {
  const { right, up, turnRight, turnUp } = moved.tube;
  const tube = { right: right + by.right, up: up + by.up, turnRight: turnRight + by.turnRight, turnUp: turnUp + by.turnUp };
  return { ...moved, tube };
}

export function withNoise(moved: Moved, part: string, noise: Noise): Moved {
  const before = moved.noise.get(part) ?? { tilt: 0, place: 0 };
  return { ...moved, noise: new Map(moved.noise).set(part, { tilt: before.tilt + noise.tilt, place: before.place + noise.place }) };
}

/** What was moved from `then` to `now`. */
export function between(then: Moved, now: Moved): Moved {
  return {
    turns: difference(now.turns, then.turns),
    turned: difference(now.turned, then.turned),
    shifts: new Map([...now.shifts].map(([part, [x, y, z]]) => {
      const [fromX, fromY, fromZ] = then.shifts.get(part) ?? [0, 0, 0];
      return [part, [x - fromX, y - fromY, z - fromZ]];
    })),
    tube: {
      right: now.tube.right - then.tube.right,
      up: now.tube.up - then.tube.up,
      turnRight: now.tube.turnRight - then.tube.turnRight,
      turnUp: now.tube.turnUp - then.tube.turnUp,
    },
    noise: new Map([...now.noise].map(([part, noise]) => {
      const before = then.noise.get(part) ?? { tilt: 0, place: 0 };
      return [part, { tilt: noise.tilt - before.tilt, place: noise.place - before.place }];
    })),
  };
}

function added(to: ReadonlyMap<string, number>, key: string, amount: number): ReadonlyMap<string, number> {
  return new Map(to).set(key, (to.get(key) ?? 0) + amount);
}

function difference(now: ReadonlyMap<string, number>, then: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  return new Map([...now].map(([key, value]) => [key, value - (then.get(key) ?? 0)]));
}
