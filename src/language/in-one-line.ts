/** Values beside the text are short: an editor cuts what is longer, or the window does. */
const LONGEST = 59;

/** The first part, and those of the others for which there is room. */
export function inOneLine(parts: readonly string[], between: string): string {
  return parts.reduce((sofar, part) => (sofar.length + between.length + part.length <= LONGEST ? `${sofar}${between}${part}` : sofar));
}
