/** A linear scale from amounts to pixels. */

export interface Linear {
  (amount: number): number;
  invert(pixel: number): number;
  domain(): readonly [number, number];
}

/** From one range to the other; an amount outside is extrapolated, or with `isClamped` placed at the end. */
export function linear(
  [from, to]: readonly [number, number],
  [begin, end]: readonly [number, number],
  isClamped = false,
): Linear {
  // A range without extent is in the middle.
  const share = (amount: number) => (to === from ? 0.5 : (amount - from) / (to - from));
  const kept = (part: number) => (isClamped ? Math.min(1, Math.max(0, part)) : part);
  const scale = (amount: number) => begin + (end - begin) * kept(share(amount));
  return Object.assign(scale, {
    invert: (pixel: number) => from + (to - from) * ((pixel - begin) / (end - begin)),
    domain: () => [from, to] as const,
  });
}
