/** Numbers as they stand in a picture and in words. */

/** Pixels, to the tenth: finer is not seen, and makes goldens restless. */
export function px(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}

/** mm as a technician says them: `1.5`, `0.25`. */
export function mm(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}
