/** How far two numbers are apart; 0 when both are the same, also both infinite. */
export function relativeError(result: number, expected: number): number {
  return result === expected ? 0 : Math.abs(result - expected) / Math.abs(expected);
}

/** The largest relative error over a list of cases, with the case it belongs to, so that a failure names its case. */
export function worstOf<Case>(
  cases: Iterable<Case>,
  error: (one: Case) => number,
): { error: number; at: Case | undefined } {
  let worst: { error: number; at: Case | undefined } = { error: -1, at: undefined };
  for (const one of cases) {
    const result = error(one);
    // A NaN is the worst error of all, and stays.
    if (Number.isNaN(result)) return { error: Infinity, at: one };
    if (result > worst.error) worst = { error: result, at: one };
  }
  return worst;
}

/** All combinations of two lists. */
export function pairs<One, Other>(ones: readonly One[], others: readonly Other[]): [One, Other][] {
  return ones.flatMap((one) => others.map((other): [One, Other] => [one, other]));
}

/** Numbers from `from` in steps of `step` up to `to`. */
export function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, index) => from + index * step);
}
