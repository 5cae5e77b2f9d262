/**
 * The exact trace of the beam: from the tube through every mirror, and its mark on each tape.
 *
 * It traces the chief ray, because a mark is read at its centre; `beam.ts` has the width of the beam. Every mirror is a
 * full plane and every aperture is open: the caller decides whether a mark is on its tape or clipped. A miss is
 * `undefined`, for that element and all after it; no result is NaN.
 *
 * Axes: machine frame, x right, y rear, z up, origin in the nominal centre of the tube's exit; marks in the viewer's
 * frame of the arriving leg (right = beam × up). Units: mm, slopes. Tolerance: rounding only; the tests require
 * agreement with a general 3-D library to 1e-9 mm, over paths of several metres.
 */
import { viewer, type Direction } from '../model/index.ts';
import { arriving, plateBetween, position, type Carriages, type Layout, type Plate } from './layout.ts';
import { CENTRED, UNMOVED, type Departure, type Setting, type Tube } from './setting.ts';
import { add, advance, dot, length, normalise, reflect, scale, subtract, type Vector } from './vector.ts';

/** A ray: a point that it starts from and its unit vector. */
export interface Ray {
  readonly from: Vector;
  readonly direction: Vector;
}

/** A mark: mm from the centre of the real aperture, viewer's frame; and the ray that made it. */
export interface Hit {
  readonly right: number;
  readonly up: number;
  readonly ray: Ray;
}

/** Cosine of the angle to a plane's normal below which a ray does not count as meeting the plane. */
const GRAZING = 1e-6;

/**
 * The marks on every element's tape up to and including element `upTo`, in path order.
 *
 * Lenses and stations let the beam straight through, as a tape shot with the lens taken out does.
 */
export function trace(
  layout: Layout,
  setting: Setting,
  carriages: Carriages,
  upTo: number = layout.elements.length - 1,
): readonly (Hit | undefined)[] {
  const places = position(layout, carriages);
  const hits: (Hit | undefined)[] = [];
  let along = layout.fires;
  let ray: Ray | undefined = leave(along, setting.tube);
  for (const [index, element] of layout.elements.entries()) {
    const place = places[index];
    if (index > upTo || place === undefined) break;
    const departure = setting.mirrors[index] ?? UNMOVED;
    const middle = add(place.tape, departure.shift);
    const hit: Hit | undefined = ray && mark(ray, along, middle, setting.apertures[index] ?? CENTRED);
    hits.push(hit);
    if (element.kind !== 'mirror') continue;
    const sends: Direction = element.sends ?? along;
    const { normal, through } = surface(plateBetween(along, sends), place.centre, departure);
    ray = hit && bounce(hit.ray, normal, through);
    along = sends;
  }
  return hits;
}

/**
 * The mark at one station, or on a tape `height` mm further along the arriving leg (on the bed, below the lens). That
 * tape is parallel to the station's with its centre on the same axis, so the ray continues straight.
 */
export function hit(
  layout: Layout,
  setting: Setting,
  carriages: Carriages,
  station: number,
  height: number = 0,
): Hit | undefined {
  const tapeHit = trace(layout, setting, carriages, station)[station];
  if (tapeHit === undefined || height === 0) return tapeHit;
  const { along, right, up } = viewer(arriving(layout, station));
  const { direction } = tapeHit.ray;
  const run = height / dot(direction, along);
  return {
    right: tapeHit.right + run * dot(direction, right),
    up: tapeHit.up + run * dot(direction, up),
    ray: tapeHit.ray,
  };
}

export function leave(fires: Direction, tube: Tube): Ray {
  const { along, right, up } = viewer(fires);
  const from = advance(advance([0, 0, 0], right, tube.right), up, tube.up);
  return { from, direction: normalise(advance(advance(along, right, tube.turnRight), up, tube.turnUp)) };
}

/** The mark of a ray on the tape around `middle`, which is perpendicular to the beam. */
export function mark(
  ray: Ray,
  leg: Direction,
  middle: Vector,
  aperture: Setting['apertures'][number],
): Hit | undefined {
  const { along, right, up } = viewer(leg);
  const met = meet(ray, middle, along);
  if (met === undefined) return undefined;
  const away = subtract(met, middle);
  return { right: dot(away, right) - aperture.right, up: dot(away, up) - aperture.up, ray };
}

/**
 * A mirror's surface, h(x, y) = piston + right·x + up·y over the nominal plate: its normal is n − right·R − up·U (of
 * length `size` before it is made a unit), and it passes through the centre displaced by the piston along n.
 */
export function surface(
  plate: Plate,
  middle: Vector,
  { pose, shift }: Departure,
): { normal: Vector; through: Vector; size: number } {
  const normal = advance(advance(plate.normal, plate.right, -pose.right), plate.up, -pose.up);
  const size = length(normal);
  return { normal: scale(normal, 1 / size), through: advance(add(middle, shift), plate.normal, pose.piston), size };
}

/** The ray after a mirror through a point, with its unit normal on the beam side. */
export function bounce(ray: Ray, normal: Vector, through: Vector): Ray | undefined {
  const from = meet(ray, through, [-normal[0], -normal[1], -normal[2]]);
  return from && { from, direction: reflect(ray.direction, normal) };
}

/**
 * The point where a ray crosses a plane through `point` in the sense of the unit normal `through`. Undefined for a ray
 * that runs along the plane, the other way, or away from it. A ray of NaN fails the last test.
 */
function meet(ray: Ray, point: Vector, through: Vector): Vector | undefined {
  const cosine = dot(ray.direction, through);
  if (cosine <= GRAZING) return undefined;
  const run = dot(subtract(point, ray.from), through) / cosine;
  return run >= 0 && run < Infinity ? advance(ray.from, ray.direction, run) : undefined;
}
