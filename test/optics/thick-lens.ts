/**
 * Real rays through a real plano-convex lens, Snell's law at both faces: the reference for the thin-lens formulas. The
 * lens's axis is z, the beam runs toward +z; x to one side. mm. Vectors by a general 3-D library.
 */
import { Vector3 } from 'three';

export interface ThickLens {
  readonly index: number;
  /** Of the curved face. */
  readonly radius: number;
  readonly thickness: number;
  /** The right way round for a parallel beam, or the wrong one. */
  readonly curved: 'to the beam' | 'to the work';
}

export interface OutRay {
  readonly from: Vector3;
  readonly direction: Vector3;
}

/** A lens of this focal length; the first face stands at z = 0. */
export function planoConvex(index: number, focal: number, curved: ThickLens['curved'], thickness = 3): ThickLens {
  return { index, radius: (index - 1) * focal, thickness, curved };
}

/** The ray that meets the first face at (x, y) with these slopes, after the second face. */
export function through(lens: ThickLens, x: number, y: number, slopeX = 0): OutRay {
  const ray = { from: new Vector3(x, y, 0), direction: new Vector3(slopeX, 0, 1).normalize() };
  const curvedFirst = lens.curved === 'to the beam';
  const first = curvedFirst ? atSphere(ray, lens.radius, 1) : atPlane(ray, 0);
  const inside = refracted(ray.direction, first, 1, lens.index);
  const second = curvedFirst
    ? atPlane({ from: first.point, direction: inside }, lens.thickness)
    : atSphere({ from: first.point, direction: inside }, lens.thickness - lens.radius, -1, lens.radius);
  return { from: second.point, direction: refracted(inside, second, lens.index, 1) };
}

/** Where it crosses the plane at `z`. */
export function crossing({ from, direction }: OutRay, z: number): Vector3 {
  return from.clone().addScaledVector(direction, (z - from.z) / direction.z);
}

/** The paraxial focus, measured from z = 0: where a ray very near the axis crosses it. */
export function paraxialFocus(lens: ThickLens): number {
  const { from, direction } = through(lens, 1e-4, 0);
  return from.z - (from.x * direction.z) / direction.x;
}

interface Face {
  readonly point: Vector3;
  /** Against the beam. */
  readonly normal: Vector3;
}

function atPlane({ from, direction }: OutRay, z: number): Face {
  return { point: crossing({ from, direction }, z), normal: new Vector3(0, 0, -1) };
}

/** The sphere about z = `middle`: its face that bulges toward the beam (`side` 1) or toward the work (−1). */
function atSphere({ from, direction }: OutRay, middle: number, side: 1 | -1, radius = middle): Face {
  const away = from.clone().sub(new Vector3(0, 0, middle));
  const half = away.dot(direction);
  const run = -half - side * Math.sqrt(half ** 2 - away.lengthSq() + radius ** 2);
  const point = from.clone().addScaledVector(direction, run);
  return {
    point,
    normal: point
      .clone()
      .sub(new Vector3(0, 0, middle))
      .multiplyScalar(side / radius),
  };
}

/** Snell's law in vectors. */
function refracted(direction: Vector3, { normal }: Face, before: number, after: number): Vector3 {
  const ratio = before / after;
  const cosine = -direction.dot(normal);
  const out = Math.sqrt(1 - ratio ** 2 * (1 - cosine ** 2));
  return direction
    .clone()
    .multiplyScalar(ratio)
    .addScaledVector(normal, ratio * cosine - out);
}
