/**
 * Inverts a distribution function in log–log coordinates.
 *
 * Built so because a tail probability against its argument is close to a straight line (or at least concave) when both are
 * taken as logarithms: Newton's method then converges from any start, in a few steps, and to full *relative* accuracy for
 * arguments of 1e-200 as well as 1e200. No brackets and no starting guess of quality are needed.
 */

/** A tail's probability at x > 0, and x times its derivative there (negative for an upper tail). */
export type Tail = (x: number) => { readonly probability: number; readonly steepness: number };

/** Reached only by arguments that the callers exclude; a bound rather than a hang. */
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
