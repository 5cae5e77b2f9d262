/** A mark as people type it in a hurry, in the words of the format. */
const WORDS: Readonly<Record<string, string>> = {
  r: 'right',
  l: 'left',
  u: 'up',
  d: 'down',
  f: 'front',
  b: 'rear',
};

const CENTRE = /^(?:c|cent(?:re|er)(?:ed|d)?|0)$/;
const NONE = /^(?:n|none|no mark|miss(?:ed)?)$/;

/**
 * `2r 4d` and `2 right (machine left), 4 down` are `2 right 4 down`, `c` is `centre`, `n` is `none`. Whatever it does
 * not know stays as it is, for the reader of the format to refuse.
 */
export function typedMark(text: string): string {
  const words = text
    .trim()
    .toLowerCase()
    .replaceAll(/\(machine[^)]*\)/g, ' ')
    // A decimal comma stays, and is refused.
    .replaceAll(/,(?!\d)|(?<!\d),/g, ' ')
    .replaceAll(/(?<=\d)(?=[a-z])/g, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
    .map((word) => (Object.hasOwn(WORDS, word) ? WORDS[word]! : word))
    .join(' ');
  if (CENTRE.test(words)) return 'centre';
  return NONE.test(words) ? 'none' : words;
}
