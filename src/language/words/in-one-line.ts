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

/** The parts in order, up to the last that fits; `…` marks omitted ones. */
export function inOrderInOneLine(parts: readonly string[], between: string): string {
  const whole = parts.join(between);
  if (whole.length <= LONGEST) return whole;
  const more = `${between}…`;
  const fitting = parts.findLastIndex((_, k) => parts.slice(0, k + 1).join(between).length + more.length <= LONGEST);
  return fitting < 0
    ? `${parts[0]!.slice(0, LONGEST - 1).trimEnd()}…`
    : `${parts.slice(0, fitting + 1).join(between)}${more}`;
}
