/**
 * Derivatives of a mark by everything in a setting: the exact trace differentiated, backwards from the tape to the tube
 * (reverse accumulation: Griewank and Walther, Evaluating Derivatives, chapter 3; cited from memory). All derivatives
 * of both parts of a mark cost about as much as four traces, however many mirrors and unknowns there are.
 *
 * Axes, units and the meaning of a miss are those of `trace.ts`. Derivatives: mm of mark per mm, and mm per unit slope.
 */
import { viewer, type Direction, type Viewer } from '../model/index.ts';
import { arriving, plateBetween, position, type Carriages, type Layout, type Plate } from './layout.ts';
import type { Pose } from './mount.ts';
import { CENTRED, UNMOVED, type Setting, type Tube } from './setting.ts';
import { bounce, leave, mark, surface, type Hit, type Ray } from './trace.ts';
import { add, advance, dot, length, scale, subtract, type Vector } from './vector.ts';

/**
 * Derivatives of one coordinate of a mark. That by the offset of the station's own aperture is left out: it is always
 * −1.
 */
export interface Gradient {
  readonly tube: Tube;
  /** By element index up to the station; zero for elements that are no mirrors. */
  readonly poses: readonly Pose[];
  /** By element index up to the station: of the block, mirror and aperture with it, machine axes. */
  readonly shifts: readonly Vector[];
}

/** A mark, mm, with the derivatives of both coordinates. */
export interface Differentiated {
  readonly right: number;
  readonly up: number;
  readonly byRight: Gradient;
  readonly byUp: Gradient;
}

/** What the backward pass needs of a mirror on the forward pass. */
interface Bounce {
  readonly element: number;
  readonly plate: Plate;
  readonly arriving: Ray;
  /** A point of its surface, the point where the ray meets it, and its unit normal. */
  readonly through: Vector;
  readonly met: Vector;
  readonly normal: Vector;
  /** Length of the normal before normalisation. */
  readonly size: number;
}

/**
 * The same mark as `hit`, and its derivatives; undefined where the beam misses. `height` in mm along the arriving leg.
 */
export function differentiate(
  layout: Layout,
  setting: Setting,
  carriages: Carriages,
  station: number,
  height: number = 0,
): Differentiated | undefined {
  const places = position(layout, carriages);
  const bounces: Bounce[] = [];
  let along: Direction = layout.fires;
  let ray = leave(along, setting.tube);
  for (let index = 0; index < station; index++) {
    const [element, place, departure] = [layout.elements[index]!, places[index]!, setting.mirrors[index] ?? UNMOVED];
    if (element.kind !== 'mirror') continue;
    if (mark(ray, along, add(place.tape, departure.shift), CENTRED) === undefined) return undefined;
    const sends = element.sends ?? along;
    const plate = plateBetween(along, sends);
    const { normal, through, size } = surface(plate, place.centre, departure);
    const reflected = bounce(ray, normal, through);
    if (reflected === undefined) return undefined;
    bounces.push({ element: index, plate, arriving: ray, through, met: reflected.from, normal, size });
    ray = reflected;
    along = sends;
  }
  const view = viewer(arriving(layout, station));
  const middle = add(places[station]!.tape, (setting.mirrors[station] ?? UNMOVED).shift);
  const tapeHit = mark(ray, along, middle, setting.apertures[station] ?? CENTRED);
  if (tapeHit === undefined) return undefined;
  const run = height / dot(ray.direction, view.along);
  const traced: Traced = { hit: tapeHit, middle, view, run, bounces, layout, setting, station };
  const part = (axis: Vector) => backwards(axis, traced);
  return {
    right: tapeHit.right + run * dot(ray.direction, view.right),
    up: tapeHit.up + run * dot(ray.direction, view.up),
    byRight: part(view.right),
    byUp: part(view.up),
  };
}

/** The trace to one tape with its centre at `middle`; the mark is `run` mm further along the last ray. */
interface Traced {
  readonly hit: Hit;
  readonly middle: Vector;
  readonly view: Viewer;
  readonly run: number;
  readonly bounces: readonly Bounce[];
  readonly layout: Layout;
  readonly setting: Setting;
  readonly station: number;
}

/** Derivatives of `axis` · mark, propagated from the last ray, mirror by mirror, back to the tube. */
function backwards(axis: Vector, traced: Traced): Gradient {
  const { hit, middle, view, run, bounces, layout, setting, station } = traced;
  const { ray } = hit;
  const { along } = view;
  const poses: Pose[] = Array.from({ length: station + 1 }, () => ({ piston: 0, right: 0, up: 0 }));
  const shifts: Vector[] = Array.from({ length: station + 1 }, (): Vector => [0, 0, 0]);
  // The tape: m = p + t·d with t = (M − p)·a / (d·a), then `run` further along d.
  const cosine = dot(ray.direction, along);
  const t = dot(subtract(middle, ray.from), along) / cosine;
  const slide = dot(axis, ray.direction) / cosine;
  let byFrom = advance(axis, along, -slide);
  let byDirection = scale(byFrom, t + run);
  shifts[station] = scale(byFrom, -1);
  for (const bounce of bounces.toReversed()) {
    const back = throughMirror(bounce, byFrom, byDirection);
    poses[bounce.element] = back.pose;
    shifts[bounce.element] = back.shift;
    byFrom = back.byFrom;
    byDirection = back.byDirection;
  }
  return { tube: byTube(layout, setting.tube, byFrom, byDirection), poses, shifts };
}

/**
 * One mirror: q = p + t·d with t = (c − p)·n / (d·n), d' = d − 2 (d·n) n, n = N/|N|, N = n₀ − right·R − up·U,
 * c = middle + shift + piston·n₀.
 */
function throughMirror(
  { plate, arriving: ray, through, met, normal, size }: Bounce,
  byMet: Vector,
  byReflected: Vector,
) {
  const d = ray.direction;
  const cosine = dot(d, normal);
  const t = dot(subtract(met, ray.from), d);
  const byLength = dot(byMet, d) / cosine;
  const byFrom = advance(byMet, normal, -byLength);
  const byDirection = advance(advance(byReflected, normal, -2 * dot(byReflected, normal)), byFrom, t);
  const byNormal = advance(
    advance(scale(subtract(through, met), byLength), byReflected, -2 * cosine),
    d,
    -2 * dot(byReflected, normal),
  );
  const across = scale(advance(byNormal, normal, -dot(byNormal, normal)), 1 / size);
  const pose: Pose = {
    piston: byLength * dot(normal, plate.normal),
    right: -dot(across, plate.right),
    up: -dot(across, plate.up),
  };
  return { pose, shift: scale(normal, byLength), byFrom, byDirection };
}

function byTube({ fires }: Layout, tube: Tube, byFrom: Vector, byDirection: Vector): Tube {
  const { along, right, up } = viewer(fires);
  const unscaled = advance(advance(along, right, tube.turnRight), up, tube.turnUp);
  const size = length(unscaled);
  const across = scale(advance(byDirection, unscaled, -dot(byDirection, unscaled) / size ** 2), 1 / size);
  return { right: dot(byFrom, right), up: dot(byFrom, up), turnRight: dot(across, right), turnUp: dot(across, up) };
}
