/** The standard uncertainty of what is worked out from figures that are each uncertain on their own. */
import type { Quantity } from '../model/index.ts';

/**
 * Each figure is moved by its own standard uncertainty either way, and the greater change counts; together as independent
 * (JCGM 100, 5.1). Steps of that size and not slopes: in the middle of a hole the loss has none, and still grows either way.
 */
export function spreadOf(of: (...values: number[]) => number, given: readonly Quantity[]): number {
  const values = given.map(({ value }) => value);
  const here = of(...values);
  const change = (index: number, by: number) => Math.abs(of(...values.map((value, k) => (k === index ? value + by : value))) - here);
  return Math.hypot(...given.map(({ u = 0 }, index) => (u === 0 ? 0 : Math.max(change(index, u), change(index, -u)))));
}
