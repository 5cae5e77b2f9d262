/** A value to fill in: nothing between the colon and what closes it. */
const BLANK = /: (?=[,}\n]|$)/g;

/** Offsets of the values to fill in. */
export function blanksIn(text: string): number[] {
  return [...text.matchAll(BLANK)].map(({ index }) => index + 2);
}

/** The text between them. */
export function partsBetweenBlanks(text: string): string[] {
  const ends = [...blanksIn(text), text.length];
  return ends.map((end, k) => text.slice(ends[k - 1] ?? 0, end));
}
