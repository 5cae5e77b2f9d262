/**
 * The same machine, traced by a general 3-D library: the independent referee.
 *
 * It shares nothing with the product but the description of the machine. Directions, viewer's frames and places are
 * computed independently with three's own vectors, and a mirror is not a pose but three points in space: the tips, each
 * advanced by its screw, with the plane laid through them. Axes and units as in the product: x right, y rear, z up; mm;
 * turns in.
 */
import { Plane, Ray, Vector3 } from 'three';
import type { Carriages, Direction, Element, Layout, Setting, Vector } from '../../src/optics/index.ts';

/** By element index, turns in by screw name. */
export type Turns = readonly Readonly<Record<string, number>>[];

export interface Mark {
  readonly right: number;
  readonly up: number;
}

const WORDS: Readonly<Record<Direction, readonly [number, number, number]>> = {
  right: [1, 0, 0],
  left: [-1, 0, 0],
  rear: [0, 1, 0],
  front: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
};

const towards = (direction: Direction): Vector3 => new Vector3(...WORDS[direction]);
const moved = (vector: Vector): Vector3 => new Vector3(...vector);

/** The frame of someone who looks along the beam. */
export function lookAlong(direction: Direction): { along: Vector3; right: Vector3; up: Vector3 } {
  const along = towards(direction);
  const up = Math.abs(along.z) === 1 ? towards('rear') : towards('up');
  return { along, up, right: along.clone().cross(up) };
}

/** The marks on every tape, or null from the first that the beam does not reach. The setting's poses are not used. */
export function refereeTrace(
  layout: Layout,
  setting: Setting,
  turns: Turns,
  carriages: Carriages,
): readonly (Mark | null)[] {
  let leg = layout.fires;
  let ray: Ray | null = leavingTube(leg, setting.tube);
  const place = new Vector3();
  return layout.elements.map((element, index) => {
    const shift = moved(setting.mirrors[index]?.shift ?? [0, 0, 0]);
    place.addScaledVector(towards(leg), carriages[element.name] ?? element.leg ?? Number.NaN);
    const mark = ray && markOf(ray, leg, place.clone().add(shift), setting.apertures[index] ?? { right: 0, up: 0 });
    place.addScaledVector(towards(leg), element.inset);
    if (element.sends !== undefined) {
      ray = mark && ray && reflected(ray, tippedPlane(element, leg, place.clone().add(shift), turns[index] ?? {}));
      leg = element.sends;
    }
    return mark;
  });
}

function leavingTube(fires: Direction, tube: Setting['tube']): Ray {
  const { along, right, up } = lookAlong(fires);
  const from = new Vector3().addScaledVector(right, tube.right).addScaledVector(up, tube.up);
  return new Ray(from, along.addScaledVector(right, tube.turnRight).addScaledVector(up, tube.turnUp).normalize());
}

function markOf(ray: Ray, leg: Direction, middle: Vector3, aperture: Mark): Mark | null {
  const { along, right, up } = lookAlong(leg);
  const met = ray.intersectPlane(new Plane().setFromNormalAndCoplanarPoint(along, middle), new Vector3());
  if (met === null || ray.direction.dot(along) <= 0) return null;
  const away = met.sub(middle);
  return { right: away.dot(right) - aperture.right, up: away.dot(up) - aperture.up };
}

/** The plane through the three tips: each at its place on the plate, advanced toward the beam side by its screw. */
function tippedPlane(
  element: Element,
  leg: Direction,
  middle: Vector3,
  turns: Readonly<Record<string, number>>,
): Plane {
  const normal = towards(element.sends ?? leg)
    .sub(towards(leg))
    .normalize();
  const up = new Plane(normal, 0).projectPoint(towards('up'), new Vector3()).normalize();
  const right = normal.clone().cross(up);
  const at = (x: number, y: number, height: number): Vector3 =>
    middle.clone().addScaledVector(right, x).addScaledVector(up, y).addScaledVector(normal, height);
  const { screws = [], pivot } = element.mount ?? {};
  const tips = screws.map((screw) => at(screw.right, screw.up, (turns[screw.name] ?? 0) * screw.pitch * screw.in));
  if (pivot !== undefined) tips.push(at(pivot.right, pivot.up, 0));
  const [a, b, c] = tips;
  if (a === undefined || b === undefined || c === undefined) throw new Error('a mirror stands on three tips');
  const plane = new Plane().setFromCoplanarPoints(a, b, c);
  return plane.normal.dot(normal) < 0 ? plane.negate() : plane;
}

function reflected(ray: Ray, plane: Plane): Ray | null {
  if (ray.direction.dot(plane.normal) >= 0) return null;
  const met = ray.intersectPlane(plane, new Vector3());
  return met && new Ray(met, ray.direction.clone().reflect(plane.normal));
}
