/**
 * Scatter of repeated readings.
 *
 * Repeats are few (two or three shots on one tape): one group alone is unreliable, but groups of the same reader can be
 * pooled. Variances are in the square of the readings' unit. Undefined without repeats.
 */

/** Σ (v − mean)² / (n − 1); undefined below two values. JCGM 100:2008, 4.2.2 (clause from memory). */
export function sampleVariance(values: ArrayLike<number>): number | undefined {
  return values.length < 2 ? undefined : squaresAboutMean(values) / (values.length - 1);
}

/**
 * The variance common to several groups, each about its own mean: Σ squares / Σ (n − 1). Groups of one reading are
 * skipped. JCGM 100:2008, 4.2.4 (pooled estimate; clause from memory).
 */
export function pooledVariance(
  groups: readonly ArrayLike<number>[],
): { readonly variance: number; readonly degreesOfFreedom: number } | undefined {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const group of groups) {
    if (group.length < 2) continue;
    squares += squaresAboutMean(group);
    degreesOfFreedom += group.length - 1;
  }
  return degreesOfFreedom === 0 ? undefined : { variance: squares / degreesOfFreedom, degreesOfFreedom };
}

/** In two passes: the one-pass formula Σv² − n·mean² cancels if the scatter is small compared with the value. */
function squaresAboutMean(values: ArrayLike<number>): number {
  const list = Array.from(values);
  const mean = list.reduce((sum, value) => sum + value, 0) / list.length;
  return list.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}
