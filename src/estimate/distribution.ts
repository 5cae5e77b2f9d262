/**
 * The joint normal distribution of a machine's unknowns: their mean and covariance. It is immutable; a move or an
 * update returns another one.
 *
 * A move is linear in the unknowns (a turn t adds t times the screw's slopes to those of its mirror), so propagation is
 * exact. The uncertainty of a hand, a lock or a removal is added to the covariance as process noise. Updates by
 * readings are in `update.ts`. Units as in `unknowns.ts`.
 */
import type { Displacement, PriorName } from '../model/index.ts';
import { directionVector, dot, plate } from '../optics/index.ts';
import {
  columnsLeftOut,
  covarianceBetween,
  CovarianceBuilder,
  diagonal,
  type Covariance,
} from '../statistics/index.ts';
import {
  screwKey,
  TUBE,
  prior,
  BEND,
  CARRIAGE_UNKNOWNS,
  type Disturbance,
  type Move,
  type ScrewPlace,
  type System,
  type Travel,
  type OperatingPoint,
} from '../machine/index.ts';

/** Mean (`values`) and covariance of the unknowns, in the order and the units of `unknowns.ts`. */
export interface Distribution extends OperatingPoint {
  readonly covariance: Covariance;
  /** By `screwKey`: the direction of its last turn, +1 in. */
  readonly senses: ReadonlyMap<string, number>;
}

/** Earlier estimates of screws and rails that are still valid. */
interface CarriedOver {
  readonly screws?: Distribution | undefined;
  /** Absent if the rails may have been bent since. */
  readonly rails?: Distribution | undefined;
}

/**
 * The prior: named priors, the gains that mounts have in common, and earlier estimates of the same screws and rails.
 */
export function priorDistribution(system: System, { screws, rails }: CarriedOver = {}): Distribution {
  const { unknowns: place } = system;
  const values = new Float64Array(place.count);
  const variances = new Float64Array(place.count);
  const put = (index: number, count: number, u: number) => variances.fill(u ** 2, index, index + count);
  const u = (name: PriorName) => prior(system.machine, name);
  put(0, 2, u('tubeOffset'));
  put(2, 2, u('tubeAngle'));
  system.mirrors.forEach((_, order) => {
    put(place.pose(order), 1, u('mirrorPiston'));
    put(place.pose(order) + 1, 2, u('mirrorTilt'));
  });
  system.stations.forEach((_, element) => put(place.aperture(element), 2, u('apertureOffset')));
  system.carriages.forEach((travel, order) => {
    put(place.carriage(order), 3, u('carriageTurn'));
    put(place.carriage(order) + BEND, 2, u('railBend'));
    const yaw = yawOf(system, travel);
    if (yaw !== undefined) put(place.carriage(order) + yaw, 1, u('racking'));
  });
  system.screws.forEach(({ effect, doubt }, order) => {
    values.set(effect ? [effect.right, effect.up] : [0, 0], place.gain(order));
    put(
      place.gain(order),
      2,
      effect
        ? Math.max(doubt, MIN_DOUBT) * Math.hypot(effect.right, effect.up)
        : Math.hypot(1, Math.SQRT2 * doubt) * u('screwTilt'),
    );
  });
  const covariance = new CovarianceBuilder(diagonal(variances));
  const carried = [...(screws ? carriedScrews(system, screws) : []), ...(rails ? carriedRails(system, rails) : [])];
  const isCarried = new Set(carried.map(({ to }) => to));
  // A new mirror's screw has this correlation with others as long as there is no mark of either.
  for (const [one, other] of correlatedGains(system))
    if (!isCarried.has(one) && !isCarried.has(other)) covariance.set(one, other, u('screwTilt') ** 2);
  carryOver({ values, covariance }, carried);
  return { system, values, covariance: covariance.result, shifts: new Map(), senses: screws?.senses ?? new Map() };
}

/** Axis about which a gantry racks: the one across its own travel and that of the carriage which rides on it. */
export function yawOf({ stations, carriages }: System, { index }: Travel): number | undefined {
  const rider = carriages.find((other) => other.index > index);
  if (!rider) return undefined;
  const [own, carried] = [stations[index]!.runs, stations[rider.index]!.runs].map((runs) =>
    directionVector(runs).findIndex((part) => part !== 0),
  );
  return own === carried ? undefined : [0, 1, 2].find((axis) => axis !== own && axis !== carried);
}

/**
 * Pairs of unknown gains that are correlated: a mount holds its screws at the same places on every mirror, so a screw
 * has the same effect on each of them, within the mount's doubt.
 */
function correlatedGains({ screws, unknowns: place }: System): (readonly [one: number, other: number])[] {
  return screws.flatMap((screw, order) =>
    screws
      .slice(0, order)
      .flatMap((other, earlier) =>
        screw.effect || screw.screw !== other.screw || screw.mount !== other.mount
          ? []
          : [0, 1].map((axis) => [place.gain(order) + axis, place.gain(earlier) + axis] as const),
      ),
  );
}

/** A screw that is declared as known exactly still needs a positive variance. */
const MIN_DOUBT = 1e-6;

/** An unknown that an earlier estimate contains too. */
interface CarriedUnknown {
  readonly to: number;
  readonly from: number;
  readonly by: Distribution;
}

/** A prior while it is assembled. */
interface PriorInProgress {
  readonly values: Float64Array;
  readonly covariance: CovarianceBuilder;
}

/** Copies mean and covariance of screws of the same name in the same mount, and of unchanged rails. */
function carryOver({ values, covariance }: PriorInProgress, carried: readonly CarriedUnknown[]): void {
  const indexes = new Map(carried.map(({ by }) => [by, new Map<number, number>()]));
  for (const { to, from, by } of carried) indexes.get(by)!.set(from, to);
  for (const { to, from, by } of carried) {
    values[to] = by.values[from]!;
    const row = by.covariance[from]!;
    const leftOut = columnsLeftOut(from, row);
    row.forEach((entry, k) => {
      const other = indexes.get(by)!.get(leftOut + k);
      if (other !== undefined) covariance.set(to, other, entry);
    });
  }
}

function carriedScrews(now: System, by: Distribution): CarriedUnknown[] {
  return now.screws.flatMap((screw, order) => {
    const old = by.system.screws.findIndex((other) => isSame(screw, other));
    return old < 0
      ? []
      : [0, 1].map(
          (axis): CarriedUnknown => ({
            to: now.unknowns.gain(order) + axis,
            from: by.system.unknowns.gain(old) + axis,
            by,
          }),
        );
  });
}

function carriedRails(now: System, by: Distribution): CarriedUnknown[] {
  return now.carriages.flatMap((travel, order) => {
    const old = by.system.carriages.findIndex((other) => isSameTravel(travel, other));
    return old < 0
      ? []
      : Array.from(
          { length: CARRIAGE_UNKNOWNS },
          (_, k): CarriedUnknown => ({
            to: now.unknowns.carriage(order) + k,
            from: by.system.unknowns.carriage(old) + k,
            by,
          }),
        );
  });
}

function isSameTravel(one: Travel, other: Travel): boolean {
  return (
    one.element === other.element &&
    one.index === other.index &&
    one.shortest === other.shortest &&
    one.longest === other.longest
  );
}

function isSame(one: ScrewPlace, other: ScrewPlace): boolean {
  return (
    one.part === other.part &&
    one.screw === other.screw &&
    one.mirror === other.mirror &&
    (one.mount === other.mount || JSON.stringify(one.mount) === JSON.stringify(other.mount))
  );
}

/** The distribution after a move. */
export function propagate(before: Distribution, move: Move): Distribution {
  const changed = new Propagation(before);
  for (const [key, turns] of move.turns) if (turns !== 0) changed.turn(key, turns);
  if (move.tube) changed.moveTube(move.tube);
  for (const [part, by] of move.shifts) if (part !== TUBE) changed.shift(part, by);
  for (const [part, by] of move.disturbed) changed.disturb(part, by);
  return changed.result();
}

/** Process noise of one turn, turns²: in proportion to the turn, plus the backlash of a screw that reverses. */
export function handVariance({ system: { machine }, senses }: Distribution, key: string, turns: number): number {
  const reading = prior(machine, 'turnReading') ** 2 * Math.abs(turns);
  const reversed = (senses.get(key) ?? Math.sign(turns)) !== Math.sign(turns);
  return reversed ? reading + prior(machine, 'backlash') ** 2 : reading;
}

/**
 * Of a screw in an unknown place: the largest distance that one turn may push the centre of its mirror, as a fraction
 * of the pitch.
 */
const UNKNOWN_PISTON = 0.5;
const USUAL_PITCH = 0.7;

/** A distribution while a move is applied to it. */
class Propagation {
  private readonly before: Distribution;
  private readonly values: Float64Array;
  private readonly covariance: CovarianceBuilder;
  private readonly shifts: Map<string, Displacement>;
  private readonly senses: Map<string, number>;

  constructor(before: Distribution) {
    this.before = before;
    this.values = before.values.slice();
    this.covariance = new CovarianceBuilder(before.covariance);
    this.shifts = new Map(before.shifts);
    this.senses = new Map(before.senses);
  }

  result(): Distribution {
    const {
      before: { system },
      values,
      covariance,
      shifts,
      senses,
    } = this;
    return { system, values, covariance: covariance.result, shifts, senses };
  }

  turn(key: string, turns: number): void {
    const { system } = this.before;
    const order = system.screws.findIndex(({ part, screw }) => screwKey(part, screw) === key);
    const screw = system.screws[order];
    if (!screw) return;
    const pose = system.unknowns.pose(system.mirrors.indexOf(screw.mirror));
    const gain = system.unknowns.gain(order);
    const variance = handVariance({ ...this.before, senses: this.senses }, key, turns);
    this.senses.set(key, Math.sign(turns));
    // The error of the hand times the effect of the screw, whose own uncertainty counts too: E[g gᵀ].
    const push = screw.effect?.piston ?? 0;
    const effect = [push, this.values[gain]!, this.values[gain + 1]!];
    const doubt = (i: number, k: number) =>
      i === 0 || k === 0 ? 0 : covarianceBetween(this.covariance.result, gain + i - 1, gain + k - 1);
    const noise = effect.map((one, i) => effect.map((other, k) => variance * (one * other + doubt(i, k))));
    if (!screw.effect) noise[0]![0]! += (turns * UNKNOWN_PISTON * (screw.mount.pitch ?? USUAL_PITCH)) ** 2;
    this.values[pose]! += turns * push;
    for (const axis of [0, 1]) {
      this.values[pose + 1 + axis]! += turns * this.values[gain + axis]!;
      this.addTimes(pose + 1 + axis, gain + axis, turns);
    }
    this.addNoise([pose, pose + 1, pose + 2], noise);
  }

  moveTube(by: { right: number; up: number; turnRight: number; turnUp: number }): void {
    [by.right, by.up, by.turnRight, by.turnUp].forEach((amount, index) => {
      this.values[index]! += amount;
    });
    const { machine } = this.before.system;
    this.disturb(TUBE, {
      tilt: prior(machine, 'shiftAngle') ** 2,
      place: prior(machine, 'shiftReading') ** 2,
      aperture: 0,
    });
  }

  /** Shifts a block, with its mirror and its aperture. The error of the shift is common to both. */
  shift(part: string, [x, y, z]: Displacement): void {
    const { system } = this.before;
    const station = system.stations.find(({ name }) => name === part);
    if (!station) return;
    const [fromX, fromY, fromZ] = this.shifts.get(part) ?? [0, 0, 0];
    this.shifts.set(part, [fromX + x, fromY + y, fromZ + z]);
    const { viewer: view, index } = station;
    const aperture = system.unknowns.aperture(index);
    const order = system.mirrors.indexOf(index);
    const normal = order < 0 ? undefined : plate(system.layout, index).normal;
    const at = [aperture, aperture + 1, ...(normal ? [system.unknowns.pose(order)] : [])];
    const moves = [view.right, view.up, ...(normal ? [normal] : [])];
    const variance = prior(system.machine, 'shiftReading') ** 2;
    this.addNoise(
      at,
      moves.map((one) => moves.map((other) => variance * dot(one, other))),
    );
    this.disturb(part, { tilt: prior(system.machine, 'shiftAngle') ** 2, place: 0, aperture: 0 });
  }

  disturb(part: string, { tilt, place, aperture }: Disturbance): void {
    const { stations, mirrors, unknowns } = this.before.system;
    if (part === TUBE) {
      this.widen(0, 2, place);
      this.widen(2, 2, tilt);
      return;
    }
    const element = stations.findIndex(({ name }) => name === part);
    if (element < 0) return;
    this.widen(unknowns.aperture(element), 2, aperture);
    const order = mirrors.indexOf(element);
    if (order < 0) return;
    this.widen(unknowns.pose(order), 1, place);
    this.widen(unknowns.pose(order) + 1, 2, tilt);
  }

  private widen(index: number, count: number, variance: number): void {
    for (let k = index; k < index + count; k++) this.covariance.add(k, k, variance);
  }

  private addNoise(at: readonly number[], noise: readonly (readonly number[])[]): void {
    at.forEach((row, r) =>
      at.slice(0, r + 1).forEach((column, c) => {
        this.covariance.add(row, column, noise[r]![c]!);
      }),
    );
  }

  /** x[to] += times · x[from], for the covariance: P[to, k] += times · P[from, k], which for k = to counts twice. */
  private addTimes(to: number, from: number, times: number): void {
    const {
      covariance,
      values: { length: count },
    } = this;
    const add = (k: number) => {
      const entry = covarianceBetween(covariance.result, from, k);
      if (entry !== 0) covariance.add(to, k, times * entry);
    };
    add(to);
    for (let k = 0; k < count; k++) if (k !== to) add(k);
    add(to);
  }
}
