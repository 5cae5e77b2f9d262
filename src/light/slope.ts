/** The derivative of a smooth function, by a step either way. */
export function slope(of: (at: number) => number, at: number): number {
  const step = 1e-4 * (Math.abs(at) + 1);
  return (of(at + step) - of(at - step)) / (2 * step);
}
