/** A text that would be longer than so many letters, cut. */
export function short(text: string, letters: number): string {
  return text.length > letters ? `${text.slice(0, Math.max(1, Math.floor(letters) - 1))}…` : text;
}

/** Pixels of an average letter at the small size, and of a bold one. */
export const LETTER = { plain: 6.1, bold: 7.4 } as const;
