/**
 * Vectors of three numbers, and operations on them.
 *
 * Built as plain read-only triples, not as a class: values can then be written as literals, compared and sent between
 * processes, and the engine stores them as packed doubles.
 *
 * Axes: machine frame, x right, y rear, z up. Units: mm for places, none for directions. Tolerance: every function is
 * exact to the rounding of its few operations.
 */
export type Vector = readonly [x: number, y: number, z: number];

/** a + b. */
export function add(a: Vector, b: Vector): Vector {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

/** a − b. */
export function subtract(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

/** by · a. */
export function scale(a: Vector, by: number): Vector {
  return [a[0] * by, a[1] * by, a[2] * by];
}

/** `start + by · along`: the step that tracing takes most, without a vector in between. */
export function advance(start: Vector, along: Vector, by: number): Vector {
  return [start[0] + along[0] * by, start[1] + along[1] * by, start[2] + along[2] * by];
}

/** The scalar product a · b. */
export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** The vector product a × b. */
export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** The Euclidean norm. */
export function length(a: Vector): number {
  return Math.sqrt(dot(a, a));
}

/** The unit vector along `a`. The zero vector has no direction and stays zero, so that nothing becomes NaN. */
export function normalise(a: Vector): Vector {
  const size = length(a);
  return size > 0 ? scale(a, 1 / size) : [0, 0, 0];
}

/**
 * The direction of a ray after a plane mirror: d − 2 (d·n) n, the law of reflection in vector form.
 *
 * @param direction unit vector of the arriving ray
 * @param normal unit vector normal to the mirror; which of its two sides it points to makes no difference
 */
export function reflect(direction: Vector, normal: Vector): Vector {
  return advance(direction, normal, -2 * dot(direction, normal));
}
