/** Values beside the text are short: an editor cuts what is longer, or the window does. */
const LONGEST = 59;

/** The first part, as far as there is room for it, and those of the others for which there is. */
export function inOneLine([first = '', ...others]: readonly string[], between: string): string {
  const begun = first.length > LONGEST ? `${first.slice(0, LONGEST - 1).trimEnd()}…` : first;
  return others.reduce((sofar, part) => (sofar.length + between.length + part.length <= LONGEST ? `${sofar}${between}${part}` : sofar), begun);
}
