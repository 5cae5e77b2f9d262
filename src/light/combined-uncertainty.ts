/** The standard uncertainty of what is worked out from figures that are each uncertain on their own. */
import type { Quantity } from '../model/index.ts';

/**
 * Each figure is moved by its own standard uncertainty either way, and the greater change counts; together as independent
 * (JCGM 100, 5.1). Steps of that size and not slopes: in the middle of a hole the loss has none, and still grows either way.
 * A step to where nothing can be worked out, as from a figure that is less sure than it is large, leaves the other one to say it.
 */
export function combinedUncertainty(of: (...values: number[]) => number, given: readonly Quantity[]): number {
  const values = given.map(({ value }) => value);
  const here = of(...values);
  const change = (index: number, by: number) =>
    Math.abs(of(...values.map((value, k) => (k === index ? value + by : value))) - here);
  return Math.hypot(...given.map(({ u = 0 }, index) => (u === 0 ? 0 : greater(change(index, u), change(index, -u)))));
}

/** Half of what a value changes over ± u of one figure; where one side cannot be computed, the change to the other. */
export function halfChange(of: (figure: number) => number, value: number, u: number): number {
  const [below, here, above] = [of(value - u), of(value), of(value + u)];
  if (!Number.isFinite(below)) return above - here;
  return Number.isFinite(above) ? (above - below) / 2 : here - below;
}

function greater(...changes: readonly number[]): number {
  const finite = changes.filter((change) => Number.isFinite(change));
  return finite.length === 0 ? NaN : Math.max(...finite);
}
