/**
 * A machine drawn from the tool's own named priors, with the errors of hand work: the tool's uncertainties must be
 * calibrated in this world. Rays by a general 3-D library; mirrors are planes, carriages turn as rigid bodies.
 *
 * Axes: machine frame x right, y rear, z up; marks in the viewer's frame; mm, slopes, turns (positive = in).
 */
import { Matrix4, Plane, Ray, Vector3 } from 'three';
import { PRIORS, type PriorName } from '../../src/model/index.ts';
import type { Direction } from '../../src/optics/index.ts';
import { lookAlong } from '../optics/referee.ts';
import type { Random } from './random.ts';
import { LEGS } from './world.ts';

/** The pose of a mirror's plate: height above its nominal plane, mm, and slopes, seen from behind. */
interface Plate {
  piston: number;
  right: number;
  up: number;
}

export interface Drawn {
  readonly sends: readonly Direction[];
  readonly fires: Direction;
  readonly tube: { right: number; up: number; turnRight: number; turnUp: number };
  readonly plates: readonly Plate[];
  readonly apertures: readonly { right: number; up: number }[];
  /** Of the gantry and of the head: turn about x, y, z over the whole travel. */
  readonly carriages: readonly Vector3[];
  /** Deviation of their rails from the line through the ends, halfway, mm, seen along the travel. */
  readonly bends: readonly { right: number; up: number }[];
  /** By mirror and screw: the effect of one turn in. */
  readonly gains: readonly Readonly<Record<string, Plate>>[];
  readonly shifts: readonly Vector3[];
  readonly senses: Map<string, number>;
  /** Standard deviations of parts and hand work that differ from the tool's own priors. */
  readonly priors: Priors;
}

export type Priors = Readonly<Partial<Record<PriorName, number>>>;

const prior = (of: Pick<Drawn, 'priors'>, name: PriorName) => of.priors[name] ?? PRIORS[name].value;

/**
 * @param effects by screw the effect of a turn by the mount's geometry, where that is given; `doubt` its relative
 * standard uncertainty
 */
export function drawnMachine(
  draw: Random,
  route: { fires: Direction; sends: readonly Direction[] },
  effects: Readonly<Record<string, Plate | undefined>>,
  doubt: number,
  priors: Priors = {},
): Drawn {
  const of = (name: PriorName) => prior({ priors }, name) * draw.normal();
  // A screw of unknown effect has on every mirror the effect that its mount gives it, within the doubt.
  const common = Object.fromEntries(
    Object.entries(effects).map(([name, effect]) => [
      name,
      effect ?? { piston: 0, right: of('screwTilt'), up: of('screwTilt') },
    ]),
  );
  const gain = (name: string): Plate => {
    const { piston, right, up } = common[name]!;
    const width = doubt * (effects[name] ? Math.hypot(right, up) : Math.SQRT2 * prior({ priors }, 'screwTilt'));
    return { piston, right: right + width * draw.normal(), up: up + width * draw.normal() };
  };
  return {
    ...route,
    tube: { right: of('tubeOffset'), up: of('tubeOffset'), turnRight: of('tubeAngle'), turnUp: of('tubeAngle') },
    plates: route.sends.map(() => ({ piston: of('mirrorPiston'), right: of('mirrorTilt'), up: of('mirrorTilt') })),
    apertures: [0, 1, 2, 3].map(() => ({ right: of('apertureOffset'), up: of('apertureOffset') })),
    carriages: [gantryTurn(of, route.sends), new Vector3(of('carriageTurn'), of('carriageTurn'), of('carriageTurn'))],
    bends: [0, 1].map(() => ({ right: of('railBend'), up: of('railBend') })),
    gains: route.sends.map(() => Object.fromEntries(Object.keys(effects).map((name) => [name, gain(name)]))),
    shifts: [0, 1, 2, 3].map(() => new Vector3()),
    senses: new Map(),
    priors,
  };
}

/** A gantry racks about the axis across its own travel and the head's, where these cross. */
function gantryTurn(of: (name: PriorName) => number, [own, carried]: readonly Direction[]): Vector3 {
  const across = lookAlong(own!).along.clone().cross(lookAlong(carried!).along);
  const about = (part: number) => of(Math.abs(part) > 0.5 ? 'racking' : 'carriageTurn');
  return new Vector3(about(across.x), about(across.y), about(across.z));
}

/** The hand's error grows with the root of the turn; a screw that comes back first takes up its play. */
export function turn(machine: Drawn, draw: Random, mirror: number, screw: string, turns: number): void {
  const { plates, gains, senses } = machine;
  const key = `${mirror}${screw}`;
  const play = (senses.get(key) ?? Math.sign(turns)) === Math.sign(turns) ? 0 : prior(machine, 'backlash');
  senses.set(key, Math.sign(turns));
  const made = turns + Math.hypot(prior(machine, 'turnReading') * Math.sqrt(Math.abs(turns)), play) * draw.normal();
  const { piston, right, up } = gains[mirror]![screw]!;
  plates[mirror]!.piston += made * piston;
  plates[mirror]!.right += made * right;
  plates[mirror]!.up += made * up;
}

export function shiftTube(machine: Drawn, draw: Random, by: Vector3): void {
  const { tube, fires } = machine;
  const { right, up } = lookAlong(fires);
  tube.right += by.dot(right) + prior(machine, 'shiftReading') * draw.normal();
  tube.up += by.dot(up) + prior(machine, 'shiftReading') * draw.normal();
  tube.turnRight += prior(machine, 'shiftAngle') * draw.normal();
  tube.turnUp += prior(machine, 'shiftAngle') * draw.normal();
}

export function shiftBlock(machine: Drawn, draw: Random, element: number, by: Vector3): void {
  const { shifts, plates } = machine;
  const off = () => prior(machine, 'shiftReading') * draw.normal();
  shifts[element]!.add(by).add(new Vector3(off(), off(), off()));
  const plate = plates[element];
  if (!plate) return;
  plate.right += prior(machine, 'shiftAngle') * draw.normal();
  plate.up += prior(machine, 'shiftAngle') * draw.normal();
}

export function lock(machine: Drawn, draw: Random, mirror: number): void {
  const plate = machine.plates[mirror]!;
  plate.right += prior(machine, 'lockTilt') * draw.normal();
  plate.up += prior(machine, 'lockTilt') * draw.normal();
}

/**
 * The mark on the tape of one station, `height` mm further along the last leg; undefined if the beam does not arrive.
 */
export function markOf(
  machine: Drawn,
  carriages: { M2: number; M3: number },
  station: number,
  height = 0,
): { right: number; up: number } | undefined {
  const legs = [LEGS.M1, carriages.M2, carriages.M3, LEGS.lens];
  const { fires, sends, tube } = machine;
  const nominal = legs.reduce<Vector3[]>(
    (places, leg, k) => [
      ...places,
      (places[k - 1]?.clone() ?? new Vector3()).addScaledVector(lookAlong(k === 0 ? fires : sends[k - 1]!).along, leg),
    ],
    [],
  );
  const turns = [
    rigid(machine, 0, carriages.M2, LEGS.M2, nominal[1]!),
    rigid(machine, 1, carriages.M3, LEGS.M3, nominal[2]!),
  ];
  const where = (k: number) => {
    // The turn of each carriage is small and taken about its own mirror: the displacements add.
    const moved = turns
      .slice(0, k)
      .reduce(
        (sum, one, order) => sum.add(one.applyTo(nominal[k]!).sub(nominal[k]!)).add(bent(machine, order, carriages)),
        new Vector3(),
      );
    return nominal[k]!.clone().add(moved).add(machine.shifts[k]!);
  };
  let leg = lookAlong(fires);
  let ray = new Ray(
    new Vector3().addScaledVector(leg.right, tube.right).addScaledVector(leg.up, tube.up),
    leg.along.clone().addScaledVector(leg.right, tube.turnRight).addScaledVector(leg.up, tube.turnUp).normalize(),
  );
  for (let k = 0; k < station; k++) {
    const plane = mirror(machine, k, leg.along, where(k), turns.slice(0, k));
    if (ray.direction.dot(plane.normal) >= 0) return undefined;
    const met = ray.intersectPlane(plane, new Vector3());
    if (!met) return undefined;
    ray = new Ray(met, ray.direction.clone().reflect(plane.normal));
    leg = lookAlong(sends[k]!);
  }
  const middle = where(station);
  const met = ray.intersectPlane(
    new Plane().setFromNormalAndCoplanarPoint(leg.along, middle.clone().addScaledVector(leg.along, height)),
    new Vector3(),
  );
  if (!met) return undefined;
  const away = met.sub(middle);
  const { right, up } = machine.apertures[station]!;
  return { right: away.dot(leg.right) - right, up: away.dot(leg.up) - up };
}

class Turned {
  readonly turn: Matrix4;
  readonly about: Vector3;

  constructor(turn: Matrix4, about: Vector3) {
    this.turn = turn;
    this.about = about;
  }

  applyTo(point: Vector3): Vector3 {
    return point.clone().sub(this.about).applyMatrix4(this.turn).add(this.about);
  }
}

function rigid(
  { carriages }: Drawn,
  order: number,
  leg: number,
  { near, far }: { near: number; far: number },
  about: Vector3,
): Turned {
  const omega = carriages[order]!.clone().multiplyScalar((leg - (near + far) / 2) / (far - near));
  const angle = omega.length();
  return new Turned(
    angle === 0 ? new Matrix4() : new Matrix4().makeRotationAxis(omega.clone().normalize(), angle),
    about,
  );
}

/** A parabola through both ends. */
function bent({ bends, sends }: Drawn, order: number, carriages: { M2: number; M3: number }): Vector3 {
  const [leg, { near, far }] = order === 0 ? [carriages.M2, LEGS.M2] : [carriages.M3, LEGS.M3];
  const height = 1 - 4 * ((leg - (near + far) / 2) / (far - near)) ** 2;
  const { right, up } = lookAlong(sends[order]!);
  return right
    .clone()
    .multiplyScalar(height * bends[order]!.right)
    .addScaledVector(up, height * bends[order]!.up);
}

function mirror(
  { plates, sends }: Drawn,
  k: number,
  arriving: Vector3,
  middle: Vector3,
  turns: readonly Turned[],
): Plane {
  const normal = lookAlong(sends[k]!).along.clone().sub(arriving).normalize();
  const up = new Plane(normal, 0).projectPoint(new Vector3(0, 0, 1), new Vector3()).normalize();
  const right = normal.clone().cross(up);
  const plate = plates[k]!;
  const tilted = normal.clone().addScaledVector(right, -plate.right).addScaledVector(up, -plate.up).normalize();
  const through = middle.clone().addScaledVector(normal, plate.piston);
  return new Plane().setFromNormalAndCoplanarPoint(
    turns.reduce((vector, { turn: by }) => vector.applyMatrix4(by), tilted),
    through,
  );
}
