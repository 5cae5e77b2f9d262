/**
 * Uncertainty components of a value: for each input the signed product c u(x), where c is the derivative of the value
 * by that input and u(x) the input's standard uncertainty, in the value's base unit (JCGM 100:2008, 5.1.3, first
 * order). Values that share an input stay correlated: the difference of a value and itself has no uncertainty.
 */
export type Components = ReadonlyMap<string, number>;

/** With more inputs the uncertainty is unknown, which bounds the time for a hostile cell. */
const MOST_INPUTS = 64;

/** Relative rounding error of two components that cancel. */
const ROUNDING = 1e-12;

const UNKNOWN: Components = new Map([['', NaN]]);

/** The components of `factor` times a value. */
export function scaled(components: Components | undefined, factor: number): Components | undefined {
  return components && new Map([...components].map(([input, value]) => [input, value * factor]));
}

/** The components of a sum. */
export function summed(a: Components | undefined, b: Components | undefined): Components | undefined {
  if (!a || !b) return a ?? b;
  const sum = new Map(a);
  for (const [input, value] of b) sum.set(input, added(sum.get(input) ?? 0, value));
  return sum.size > MOST_INPUTS ? UNKNOWN : sum;
}

function added(a: number, b: number): number {
  return Math.abs(a + b) <= ROUNDING * (Math.abs(a) + Math.abs(b)) ? 0 : a + b;
}

/**
 * The components of a product. If both factors are zero and uncertain, the first-order uncertainty is zero, which is
 * wrong (JCGM 100:2008, 5.1.2, note): it is then unknown.
 */
export function multiplied(a: Factor, b: Factor): Components | undefined {
  const product = summed(scaled(a.components, b.value), scaled(b.components, a.value));
  return a.value === 0 && b.value === 0 && isUncertain(a) && isUncertain(b) ? UNKNOWN : product;
}

interface Factor {
  readonly value: number;
  readonly components?: Components | undefined;
}

function isUncertain({ components }: Factor): boolean {
  return components !== undefined && combinedUncertainty(components) !== 0;
}

/** Combined standard uncertainty of independent inputs (JCGM 100:2008, eq. 10); not finite if unknown. */
export function combinedUncertainty(components: Components): number {
  return Math.hypot(...components.values());
}
