/** Rounding of numbers for pictures. */

/** Pixels, rounded to a tenth: finer steps are invisible and make goldens unstable. */
export function px(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
