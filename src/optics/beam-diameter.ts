/** How wide the beam has grown on its way. */

/**
 * Diameter (1/e²) so far from a waist, mm: d² = d₀² + Θ²z² (ISO 11146-1:2005, 5; from memory). The waist is taken to be at
 * the tube's exit, where flat output mirrors put it (common practice).
 *
 * @param divergence full angle, rad
 */
export function beamDiameter({ diameter, divergence = 0 }: { readonly diameter: number; readonly divergence?: number }, distance: number): number {
  return Math.hypot(diameter, divergence * distance);
}
