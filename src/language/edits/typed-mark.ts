/** A mark as people type it in a hurry, in the words of the format. */

const CENTRE = /^(?:c|cent(?:re|er)(?:ed|d)?|0)$/;
const NONE = /^(?:n|none|no mark|miss(?:ed)?)$/;

/** The sides of a tape, on an upright leg and on others. */
const SIDES = { upright: ['right', 'left', 'front', 'rear'], level: ['right', 'left', 'up', 'down'] } as const;

/**
 * `2r 4d` and `2 right (machine left), 4 down` are `2 right 4 down`, `c` is `centre`, `n` is `none`: a side is known by
 * its first letters. Whatever is not known stays as it is, for the reader of the format to refuse; so does `r` on an
 * upright leg, where it may be right or rear.
 */
export function typedMark(text: string, isUpright: boolean): string {
  const sides = SIDES[isUpright ? 'upright' : 'level'];
  const words = text
    .trim()
    .toLowerCase()
    .replaceAll(/\(machine[^)]*\)/g, ' ')
    // A decimal comma stays, and is refused.
    .replaceAll(/,(?!\d)|(?<!\d),/g, ' ')
    .replaceAll(/(?<=\d)(?=[a-z])|(?<=[a-z])(?=\d)/g, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
    .map((word) => meant(word, sides))
    .join(' ');
  if (CENTRE.test(words)) return 'centre';
  return NONE.test(words) ? 'none' : words;
}

function meant(word: string, sides: readonly string[]): string {
  const [side, another] = sides.filter((one) => one.startsWith(word));
  return side !== undefined && another === undefined ? side : word;
}
