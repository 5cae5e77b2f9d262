/**
 * A placeholder for a cell in a sentence. The log counts cells, the text counts lines, and an edit above changes a
 * cell's line, so the line is filled in when the sentence is shown.
 */

/** Private-use characters of Unicode, which no text contains. */
const [OPEN, CLOSE] = ['\u{E000}', '\u{E001}'];

/** @param cell its index in the file, from 0 */
export function cellPlace(cell: number): string {
  return `${OPEN}${cell}${CLOSE}`;
}

/** @param inWords a cell in words, by its index: `line 31` */
export function withCellPlaces(text: string, inWords: (cell: number) => string): string {
  return text.replace(new RegExp(`${OPEN}(\\d+)${CLOSE}`, 'gu'), (_, cell: string) => inWords(Number(cell)));
}
