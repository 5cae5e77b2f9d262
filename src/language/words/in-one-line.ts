/** Maximum length of an inlay hint: editors truncate longer ones. */
const LONGEST = 59;

/** The first part, truncated if needed, and those of the others that fit. */
export function inOneLine([first = '', ...others]: readonly string[], between: string): string {
  const begun = first.length > LONGEST ? `${first.slice(0, LONGEST - 1).trimEnd()}…` : first;
  return others.reduce(
    (sofar, part) => (sofar.length + between.length + part.length <= LONGEST ? `${sofar}${between}${part}` : sofar),
    begun,
  );
}
