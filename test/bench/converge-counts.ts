/**
 * The count that meets a goal on a share: the one that a program exactly at the goal reaches in 95 of 100 runs.
 * Compared with the share itself, such a program would fail every second run.
 */

/** The largest count of successes that `of` trials, each with probability `share`, reach in at least 95 of 100 runs. */
export function leastCount(of: number, share: number): number {
  return of - mostCount(of, 1 - share);
}

const OFTEN = 0.95;

/** The smallest count of successes that is not exceeded in at least 95 of 100 runs: a binomial quantile. */
export function mostCount(of: number, share: number): number {
  let count = 0;
  let logarithm = of * Math.log1p(-share);
  for (let sum = Math.exp(logarithm); sum < OFTEN && count < of; sum += Math.exp(logarithm)) {
    logarithm += Math.log((share * (of - count)) / ((1 - share) * (count + 1)));
    count++;
  }
  return count;
}
