/**
 * The share of a Gaussian beam that passes a round hole, the beam in the middle or not.
 *
 * A beam of 1/e² diameter d has in each axis the profile of a normal distribution with σ = d/4, so the share within a hole
 * is the probability that a point lies in a disc: 1 − exp(−2 a²/w²) for a centred beam, and off it the noncentral
 * chi-square with 2 degrees of freedom at (2a/w)², noncentrality (2r/w)². All lengths in one unit.
 */
import { discProbability, riceCdf } from '../statistics/index.ts';

/** Through a hole that the beam meets squarely. */
export function transmission(aperture: number, diameter: number, offset: number): number {
  return riceCdf(aperture / 2, offset, sigmaOf(diameter));
}

/**
 * The same for a round face that the beam meets at 45°: seen along the beam it is narrower by √2 in the plane of incidence.
 * Stretching that axis makes it round again and the beam oval.
 *
 * @param across where the beam's middle lies: in the plane of incidence and across it
 */
export function transmissionAtSlant(
  aperture: number,
  diameter: number,
  { within, across }: { within: number; across: number },
): number {
  const variance = sigmaOf(diameter) ** 2;
  return Math.min(1, discProbability([within * Math.SQRT2, across], [2 * variance, 0, variance], aperture / 2));
}

/** One that is known to less than itself may be tried below nothing, where there is no beam: it is then a ray. */
function sigmaOf(diameter: number): number {
  return Math.max(0, diameter) / 4;
}
