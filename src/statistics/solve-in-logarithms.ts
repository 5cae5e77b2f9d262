/**
 * Inverts a distribution function in log–log coordinates.
 *
 * In logarithms of both, a tail probability against its argument is nearly a straight line (or at least concave):
 * Newton's method converges from any start, in a few steps, and to full *relative* accuracy for arguments of 1e-200 as
 * well as 1e200. It needs no bracket and no good starting guess.
 */

/** A tail's probability at x > 0, and x times its derivative there (negative for an upper tail). */
export type Tail = (x: number) => { readonly probability: number; readonly steepness: number };

/** Bounds the loop for arguments that the callers exclude. */
const MOST_STEPS = 200;

/** x > 0 with `tail(x).probability` = `target`, 0 < target < 1, starting from `start` > 0. */
export function solveInLogarithms(tail: Tail, target: number, start: number): number {
  let x = start;
  for (let step = 0; step < MOST_STEPS; step++) {
    const { probability, steepness } = tail(x);
    const change = (Math.log(target / probability) * probability) / steepness;
    x *= Math.exp(change);
    // Newton's error is about the square of the step just taken. A very heavy tail may lie beyond the largest double.
    if (Math.abs(change) < 1e-9 || x === Infinity) break;
  }
  return x;
}
