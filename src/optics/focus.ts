/**
 * The effect of a lens on rays: aberration, the lean of a cut, and the shift of the spot. (`throughLens` has the spot
 * itself.)
 *
 * Diameters 1/e², mm; slopes and angles rad, in the frame in which offsets and slopes are given. The lens is thin here;
 * an exact trace through a thick one is the referee in the tests.
 */

/**
 * Shape factor of a lens: the fraction of its power in the face that meets the beam, C₁/(C₁ − C₂). 1 if a plano-convex
 * lens turns its curved side to the beam (the right way for a parallel beam), 0 if it turns its flat side, ½ for equal
 * faces. Coddington's factor is 2 k − 1.
 */
export type ShapeFactor = 0 | 0.5 | 1;

/**
 * Third-order spherical aberration of a thin lens in a parallel beam: the least diameter that rays from across
 * `diameter` leave, mm.
 *
 * β = (n² − (2n + 1) k + (n + 2) k²/n) / (32 (n − 1)² F³), F = f/D, and the blur is f β: a quarter of the blur in the
 * paraxial focus. From the sums G₁, G₂, G₄ of W. J. Smith, Modern Optical Engineering, eq. (6.3u).
 */
export function aberrationSpot(index: number, shapeFactor: ShapeFactor, focal: number, diameter: number): number {
  const shape = index ** 2 - (2 * index + 1) * shapeFactor + ((index + 2) * shapeFactor ** 2) / index;
  return (focal * shape * (diameter / focal) ** 3) / (32 * (index - 1) ** 2);
}

/**
 * The lean of a cut, rad: the angle behind a lens of a beam that meets it `offset` mm off centre and `slope` (a
 * tangent) out of plumb: atan(slope − offset/f). The minus means that the beam crosses the axis of the lens: met on the
 * right, it runs down to the left.
 */
export function cutLean(offset: number, slope: number, focal: number): number {
  return Math.atan(slope - offset / focal);
}

/**
 * Shift of the spot, mm, of a beam out of plumb by `slope` (a tangent): f · slope to the same side, wherever it meets
 * the lens.
 */
export function spotShift(slope: number, focal: number): number {
  return focal * slope;
}
