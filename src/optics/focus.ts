/**
 * What a lens does to rays: the blur it adds, how a cut leans and where the spot goes. (`throughLens` has the spot itself.)
 *
 * Diameters 1/e², mm; slopes and angles rad, in the frame in which offsets and slopes are given. The lens is thin here; an exact
 * trace through a thick one is the referee in the tests.
 */

/**
 * How much of a lens's bending is in the face that meets the beam, C₁/(C₁ − C₂): 1 where a plano-convex lens turns its
 * curved side to the beam (the right way for a parallel beam), 0 where it turns its flat side, ½ for equal faces.
 */
export type ShapeFactor = 0 | 0.5 | 1;

/**
 * Third-order spherical aberration of a thin lens in a parallel beam: the least diameter that rays from across `diameter` leave, mm.
 *
 * β = (n² − (2n + 1) k + (n + 2) k²/n) / (32 (n − 1)² F³), F = f/D, and the blur is f β: a quarter of the blur in the
 * paraxial focus. From the sums G₁, G₂, G₄ of W. J. Smith, Modern Optical Engineering, eq. (6.3u).
 */
export function aberrationSpot(index: number, shapeFactor: ShapeFactor, focal: number, diameter: number): number {
  const shape = index ** 2 - (2 * index + 1) * shapeFactor + ((index + 2) * shapeFactor ** 2) / index;
  return (focal * shape * (diameter / focal) ** 3) / (32 * (index - 1) ** 2);
}

/**
 * How far the beam leans behind a lens that it met `offset` mm off the middle and `slope` (a tangent) off plumb, rad:
 * atan(slope − offset/f). The minus says that it leans back across the lens's axis: met on the right, it runs down to the left.
 */
export function cutLean(offset: number, slope: number, focal: number): number {
  return Math.atan(slope - offset / focal);
}

/** Where the spot goes when the beam arrives off plumb by `slope` (a tangent): f · slope to the same side, wherever it met the lens. */
export function spotShift(slope: number, focal: number): number {
  return focal * slope;
}
