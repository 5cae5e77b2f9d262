/**
 * A cell named in a sentence before anybody knows its line: the log counts cells, lines are the text's, and an edit above
 * moves them. Who shows the sentence puts the words in.
 */

/** Signs that no text has: of Unicode's private use. */
const [OPEN, CLOSE] = ['\u{E000}', '\u{E001}'];

/** @param cell its index in the file, from 0 */
export function cellPlace(cell: number): string {
  return `${OPEN}${cell}${CLOSE}`;
}

/** @param inWords of a cell by its index: `line 31` */
export function withCellPlaces(text: string, inWords: (cell: number) => string): string {
  return text.replace(new RegExp(`${OPEN}(\\d+)${CLOSE}`, 'gu'), (_, cell: string) => inWords(Number(cell)));
}
