/** The 95 % ellipse of a mark, from its covariance. */
import type { Ellipse } from '../model/index.ts';
import { chiSquareQuantile } from '../statistics/index.ts';

/** The quantile for two degrees of freedom, 5.99. */
const SQUARE = chiSquareQuantile(0.95, 2);

/**
 * Half axes √(5.99 λ), λ the eigenvalues ½(rr + uu) ± √(¼(rr − uu)² + ru²) of the covariance; the long one lies at
 * ½ atan2(2 ru, rr − uu) from right toward up (JCGM 102:2011, 6.5.2, from memory; the eigenvalues are of a symmetric
 * 2 × 2 matrix).
 *
 * @param covariance rr, ru, uu in mm²
 */
export function ellipse([rr, ru, uu]: readonly [number, number, number]): Ellipse {
  const mean = (rr + uu) / 2;
  const halfDifference = Math.hypot((rr - uu) / 2, ru);
  return {
    major: Math.sqrt(SQUARE * (mean + halfDifference)),
    minor: Math.sqrt(SQUARE * Math.max(0, mean - halfDifference)),
    angle: Math.atan2(2 * ru, rr - uu) / 2,
  };
}
