/**
 * Transmission of a Gaussian beam through a round aperture, centred or not.
 *
 * A beam of 1/e² diameter d has in each axis the profile of a normal distribution with σ = d/4, so the transmission is
 * the probability that a point lies in a disc: 1 − exp(−2 a²/w²) for a centred beam, and for an offset r the noncentral
 * chi-square with 2 degrees of freedom at (2a/w)², noncentrality (2r/w)². All lengths in one unit.
 */
import { discProbability, riceCdf } from '../statistics/index.ts';

/** Transmission of an aperture perpendicular to the beam. */
export function transmission(aperture: number, diameter: number, offset: number): number {
  return riceCdf(aperture / 2, offset, sigmaOf(diameter));
}

/**
 * The same for a round face that the beam meets at 45°: along the beam it is narrower by √2 in the plane of incidence.
 * Stretching that axis makes the face round and the beam oval.
 *
 * @param offset offset of the beam in the plane of incidence and across it
 */
export function transmissionAtSlant(
  aperture: number,
  diameter: number,
  { within, across }: { within: number; across: number },
): number {
  const variance = sigmaOf(diameter) ** 2;
  return Math.min(1, discProbability([within * Math.SQRT2, across], [2 * variance, 0, variance], aperture / 2));
}

/** A diameter with an uncertainty larger than itself may be evaluated below zero: it counts as zero, a ray. */
function sigmaOf(diameter: number): number {
  return Math.max(0, diameter) / 4;
}
