/** Predicts marks from the unknowns through the exact trace, with their derivatives. */
import {
  add,
  cross,
  differentiate,
  dot,
  hit,
  plate,
  position,
  scale,
  subtract,
  type Differentiated,
  type Gradient,
  type Pose,
  type Setting,
  type Vector,
} from '../optics/index.ts';
import type { Displacement } from '../model/index.ts';
import type { System } from './system.ts';

/** A tape whose mark is predicted. */
export interface Query {
  /** Index of the station in the path. */
  readonly station: number;
  readonly carriages: Readonly<Record<string, number>>;
  /** mm below the station */
  readonly height: number;
}

/** The machine at one value of its unknowns. */
export interface OperatingPoint {
  readonly system: System;
  readonly values: Float64Array;
  /** By part: the deliberate shift of its block, mm, machine axes. */
  readonly shifts: ReadonlyMap<string, Displacement>;
}

/** A predicted mark (mm) and its derivatives by each unknown. */
export interface Sensitivity {
  readonly right: number;
  readonly up: number;
  readonly byRight: Float64Array;
  readonly byUp: Float64Array;
}

/** Marks right, up, right, up … in mm, by the exact trace; undefined where the beam misses the plane of a tape. */
export function marksAt(at: OperatingPoint, queries: readonly Query[]): Float64Array | undefined {
  const marks = new Float64Array(2 * queries.length);
  for (const [i, query] of queries.entries()) {
    const mark = hit(at.system.layout, settingAt(at, query), query.carriages, query.station, query.height);
    if (!mark) return undefined;
    marks.set([mark.right, mark.up], 2 * i);
  }
  return marks;
}

/** The mark and its derivatives; undefined where the beam misses the plane of the tape. */
export function sensitivity(at: OperatingPoint, query: Query): Sensitivity | undefined {
  const { system } = at;
  const derivatives = differentiate(system.layout, settingAt(at, query), query.carriages, query.station, query.height);
  return (
    derivatives && {
      right: derivatives.right,
      up: derivatives.up,
      byRight: jacobianRow(system, query, derivatives, 'byRight'),
      byUp: jacobianRow(system, query, derivatives, 'byUp'),
    }
  );
}

function jacobianRow(
  system: System,
  query: Query,
  derivatives: Differentiated,
  part: 'byRight' | 'byUp',
): Float64Array {
  const place = system.unknowns;
  const row = new Float64Array(place.count);
  const by: Gradient = derivatives[part];
  row.set([by.tube.right, by.tube.up, by.tube.turnRight, by.tube.turnUp]);
  system.mirrors.forEach((element, order) => {
    const pose = by.poses[element];
    if (pose) row.set([pose.piston, pose.right, pose.up], place.pose(order));
  });
  row[place.aperture(query.station) + (part === 'byRight' ? 0 : 1)] = -1;
  for (const { order, element, axes } of carriageEffects(system, query)) {
    const shift = by.shifts[element]!;
    const pose = by.poses[element]!;
    axes.forEach((effect, axis) => {
      row[place.carriage(order) + axis]! += dot(shift, effect.shift) + pose.right * effect.right + pose.up * effect.up;
    });
  }
  return row;
}

const AXES: readonly Vector[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/**
 * The effect of a carriage on an element that it carries: per rad about each axis and per mm of bend, at one setting of
 * the carriages.
 */
interface CarriageEffect {
  readonly order: number;
  readonly element: number;
  readonly axes: readonly { readonly shift: Vector; readonly right: number; readonly up: number }[];
}

/** Cache by setting of the carriages: few settings are ever used. */
const effectCache = new WeakMap<System, Map<string, readonly CarriageEffect[]>>();

const MAX_CACHED = 200;

function carriageEffects(system: System, { station, carriages }: Query): readonly CarriageEffect[] {
  if (system.carriages.length === 0) return [];
  const cached = effectCache.get(system) ?? new Map<string, readonly CarriageEffect[]>();
  effectCache.set(system, cached);
  const key = system.carriages.reduce(
    (sofar, { element, shortest }) => `${sofar} ${carriages[element] ?? shortest}`,
    `${station}`,
  );
  let effects = cached.get(key);
  if (effects === undefined) {
    if (cached.size >= MAX_CACHED) cached.clear();
    cached.set(key, (effects = computeCarriageEffects(system, station, carriages)));
  }
  return effects;
}

/** Every later element rides on the carriages before it. */
function computeCarriageEffects(system: System, station: number, carriages: Query['carriages']): CarriageEffect[] {
  const places = position(system.layout, carriages);
  return system.carriages.flatMap(({ index, element: name, shortest, longest }, order) => {
    // From the middle of the travel: −½ … ½ of the whole turn.
    const fraction = ((carriages[name] ?? shortest) - (shortest + longest) / 2) / (longest - shortest);
    const bends = railBends(system, index, 1 - 4 * fraction ** 2);
    const origin = places[index]!.centre;
    return Array.from({ length: Math.max(0, station + 1 - index) }, (_, k): CarriageEffect => {
      const element = index + k;
      const arm = subtract(places[element]!.centre, origin);
      return {
        order,
        element,
        axes: [...AXES.map((axis) => turned(system, element, scale(axis, fraction), arm)), ...bends],
      };
    });
  });
}

/**
 * A bent rail is a parabola through its ends: the carriage and everything that it carries is displaced by `height` (1
 * at the middle of the travel, 0 at its ends) times the bend. Its rotation there belongs to the turn of the carriage.
 */
function railBends({ stations }: System, index: number, height: number): CarriageEffect['axes'] {
  const { right, up } = stations[index]!.viewer;
  return [right, up].map((axis) => ({ shift: scale(axis, height), right: 0, up: 0 }));
}

/**
 * The effect of a small turn ω on an element at `arm` from the axis: its position moves by ω × arm, its plate turns by
 * ω.
 */
function turned(system: System, element: number, omega: Vector, arm: Vector): CarriageEffect['axes'][number] {
  const shift = cross(omega, arm);
  if (system.layout.elements[element]?.kind !== 'mirror') return { shift, right: 0, up: 0 };
  const { normal, right, up } = plate(system.layout, element);
  const tipped = cross(omega, normal);
  return { shift, right: -dot(tipped, right), up: -dot(tipped, up) };
}

function settingAt(at: OperatingPoint, query: Query): Setting {
  const { system, values, shifts } = at;
  const place = system.unknowns;
  const poses: Pose[] = system.stations.map(() => ({ piston: 0, right: 0, up: 0 }));
  system.mirrors.forEach((element, order) => {
    const from = place.pose(order);
    poses[element] = { piston: values[from]!, right: values[from + 1]!, up: values[from + 2]! };
  });
  const moved: Vector[] = system.stations.map(({ name }) => shifts.get(name) ?? [0, 0, 0]);
  for (const { order, element, axes } of carriageEffects(system, query)) {
    axes.forEach((effect, axis) => {
      const turn = values[place.carriage(order) + axis]!;
      const { piston, right, up } = poses[element]!;
      moved[element] = add(moved[element]!, scale(effect.shift, turn));
      poses[element] = { piston, right: right + turn * effect.right, up: up + turn * effect.up };
    });
  }
  return {
    tube: { right: values[0]!, up: values[1]!, turnRight: values[2]!, turnUp: values[3]! },
    mirrors: system.stations.map((_, element) => ({ pose: poses[element]!, shift: moved[element]! })),
    apertures: system.stations.map((_, element) => ({
      right: values[place.aperture(element)]!,
      up: values[place.aperture(element) + 1]!,
    })),
  };
}
