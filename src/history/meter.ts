/**
 * What a power meter says, and how sure that is. Everything that is told of power is a product of readings, or a
 * difference of such; each carries how it depends on the logarithm of every reading in it, so that a reading which
 * stands in two of them counts as one (JCGM 100:2008, 5.1.2, 5.1.6 and 5.2.2).
 *
 * Relative variances: repeats scatter by `repeat`, which they average; putting the meter there again by `placing`, which
 * they do not. Few repeats say little of their scatter: all groups of the log are pooled, and with them the prior, which
 * counts as so many more of them (JCGM 100:2008, 4.2.4, and G.4.2 for what a doubtful uncertainty is worth).
 */
import { pooledVariance, studentQuantile } from '../statistics/index.ts';
import type { Uncertain } from '../model/index.ts';

export interface Meter {
  /** Relative variance of one reading among its repeats, and with how many degrees of freedom it is known. */
  readonly repeat: number;
  readonly freedom: number;
  /** Relative variance. */
  readonly placing: number;
}

/** The prior of a repeat is good to a quarter: ½ · (1/4)⁻². */
const PRIOR_FREEDOM = 8;

/** W. Less is no power: the squares of values computed from it would be rounded to zero. */
const LEAST_POWER = 1e-9;

/** Whether any power arrived. @param reading W */
export function isPower(reading: number): boolean {
  return reading >= LEAST_POWER;
}

/** @param prior relative standard deviations; `groups` the repeats of each reading in W; those without power are ignored */
export function meter(
  groups: readonly (readonly number[])[],
  prior: { readonly repeat: number; readonly placing: number },
): Meter {
  const measured = groups.filter((group) => isPower(mean(group)));
  const shares = measured.map((group) => group.map((reading) => reading / mean(group)));
  const { variance, degreesOfFreedom } = pooledVariance(shares) ?? { variance: 0, degreesOfFreedom: 0 };
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

/** So many repeats of one reading; the object itself is the reading. */
export interface Repeats {
  readonly mean: number;
  readonly readings: readonly number[];
}

/** A number that follows from readings: by each, its derivative by the logarithm of that reading. */
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

/** With the effective degrees of freedom of Welch and Satterthwaite (JCGM 100:2008, G.4.1). */
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
