/** The combined standard uncertainty of a result of independent values. */
import type { Quantity } from '../model/index.ts';

/**
 * Each value is changed by its own standard uncertainty both ways, and the larger change counts; the changes are
 * combined as independent (JCGM 100, 5.1). Finite steps and not slopes: at the centre of an aperture the loss has no
 * slope, but grows both ways. If one step has no result, as for a value smaller than its uncertainty, the other one is
 * used.
 */
export function combinedUncertainty(of: (...values: number[]) => number, given: readonly Quantity[]): number {
  const values = given.map(({ value }) => value);
  const nominal = of(...values);
  const change = (index: number, by: number) =>
    Math.abs(of(...values.map((value, k) => (k === index ? value + by : value))) - nominal);
  return Math.hypot(...given.map(({ u = 0 }, index) => (u === 0 ? 0 : greater(change(index, u), change(index, -u)))));
}

/** Half the change of a result over ± u of one value; if one side cannot be computed, the change to the other. */
export function halfChange(of: (figure: number) => number, value: number, u: number): number {
  const [below, nominal, above] = [of(value - u), of(value), of(value + u)];
  if (!Number.isFinite(below)) return above - nominal;
  return Number.isFinite(above) ? (above - below) / 2 : nominal - below;
}

function greater(...changes: readonly number[]): number {
  const finite = changes.filter((change) => Number.isFinite(change));
  return finite.length === 0 ? NaN : Math.max(...finite);
}
