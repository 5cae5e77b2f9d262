/** Numbers as they stand in a picture and in words. */

/** Pixels, to the tenth: finer is not seen, and makes goldens restless. */
export function px(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
