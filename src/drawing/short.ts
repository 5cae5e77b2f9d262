/** Truncates a text to this number of letters. */
export function short(text: string, letters: number): string {
  return text.length > letters ? `${text.slice(0, Math.max(1, Math.floor(letters) - 1))}…` : text;
}

/** Average width of a letter in pixels, at the small size, and in bold. */
export const LETTER = { plain: 6.1, bold: 7.4 } as const;
