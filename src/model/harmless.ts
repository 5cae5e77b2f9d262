/** Characters that control a terminal, are not XML, or reverse the direction of a line. */
const ORDERS = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

/** Escapes control characters, so that they are shown and have no effect. */
export function harmless(text: string): string {
  return text.replaceAll(ORDERS, shown);
}

/** The same for a text of several lines. */
export function harmlessLines(text: string): string {
  return text.replaceAll(ORDERS, (character) =>
    character === '\n' || character === '\t' ? character : shown(character),
  );
}

function shown(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}
