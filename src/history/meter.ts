/**
 * Power readings and their uncertainty. Every result is a product of readings, or a difference of products; it carries
 * its derivative by the logarithm of each reading, so that a reading in two of them counts once (JCGM 100:2008, 5.1.2,
 * 5.1.6 and 5.2.2).
 *
 * Relative variances: repeats scatter by `repeat`, which averaging reduces; placing the meter adds `placing`, which
 * averaging does not reduce. Few repeats give a poor estimate of their scatter: all groups of the log are pooled with
 * the prior, which counts as additional degrees of freedom (JCGM 100:2008, 4.2.4, and G.4.2 on the uncertainty of an
 * uncertainty).
 */
import { pooledVariance, studentQuantile } from '../statistics/index.ts';
import type { Uncertain } from '../model/index.ts';

export interface Meter {
  /** Relative variance of one reading among its repeats, and its degrees of freedom. */
  readonly repeat: number;
  readonly freedom: number;
  /** Relative variance. */
  readonly placing: number;
}

/** The prior of a repeat has a relative uncertainty of 1/4: ½ · (1/4)⁻² degrees of freedom. */
const PRIOR_FREEDOM = 8;

/** W. Below this there is no power: the squares of values computed from it would be rounded to zero. */
const LEAST_POWER = 1e-9;

/** Whether any power arrived. @param reading W */
export function isPower(reading: number): boolean {
  return reading >= LEAST_POWER;
}

/**
 * @param groups the repeats of each reading, W; those without power are ignored
 * @param prior relative standard deviations
 */
export function meter(
  groups: readonly (readonly number[])[],
  prior: { readonly repeat: number; readonly placing: number },
): Meter {
  const measured = groups.filter((group) => isPower(mean(group)));
  const ratios = measured.map((group) => group.map((reading) => reading / mean(group)));
  const { variance, degreesOfFreedom } = pooledVariance(ratios) ?? { variance: 0, degreesOfFreedom: 0 };
  const freedom = PRIOR_FREEDOM + degreesOfFreedom;
  return {
    repeat: (PRIOR_FREEDOM * prior.repeat ** 2 + degreesOfFreedom * variance) / freedom,
    freedom,
    placing: prior.placing ** 2,
  };
}

export function mean(readings: readonly number[]): number {
  return readings.reduce((sum, reading) => sum + reading / readings.length, 0);
}

/** The repeats of one reading; the object's identity is that of the reading. */
export interface Repeats {
  readonly mean: number;
  readonly readings: readonly number[];
}

/** A number computed from readings, with its derivative by the logarithm of each. */
export interface Amount {
  readonly value: number;
  readonly by: ReadonlyMap<Repeats, number>;
}

export function quotient(above: Repeats, below: Repeats): Amount {
  const value = above.mean / below.mean;
  return {
    value,
    by: new Map([
      [above, value],
      [below, -value],
    ]),
  };
}

export function difference(one: Amount, other: Amount): Amount {
  const by = new Map(one.by);
  for (const [reading, slope] of other.by) by.set(reading, (by.get(reading) ?? 0) - slope);
  return { value: one.value - other.value, by };
}

const COVERED = 0.95;

/** The expanded uncertainty uses the effective degrees of freedom of Welch and Satterthwaite (JCGM 100:2008, G.4.1). */
export function uncertain({ value, by }: Amount, { repeat, freedom, placing }: Meter): Uncertain {
  let repeated = 0;
  let placed = 0;
  for (const [{ readings }, slope] of by) {
    repeated += (slope ** 2 * repeat) / readings.length;
    placed += slope ** 2 * placing;
  }
  const variance = repeated + placed;
  const u = Math.sqrt(variance);
  return { value, u, expanded: studentQuantile((1 + COVERED) / 2, freedom * (variance / repeated) ** 2) * u };
}
