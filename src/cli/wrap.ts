/** Text wrapped by the columns that a terminal gives each character. */

/** Where a command does not ask for the width of the terminal: 80, the last of which some terminals do not use. */
const COLUMNS = 79;

/** Wraps words into lines. The first line begins with `lead`, the others are indented by its width. */
export function wrapped(text: string, lead = '', width = COLUMNS): string[] {
  const indent = ' '.repeat(columns(lead));
  const room = Math.max(1, width - indent.length);
  const lines: string[] = [];
  let line = lead;
  let empty = true;
  for (const word of text.split(/\s+/).flatMap((one) => broken(one, room))) {
    if (!empty && columns(line) + 1 + columns(word) > width) {
      lines.push(line);
      line = indent + word;
    } else {
      line += empty ? word : ` ${word}`;
    }
    empty = false;
  }
  return [...lines, line];
}

/** A short label of 12 columns, or `wide`, with its text wrapped beside it. */
export function labelled(label: string, text: string, wide = 12, width = COLUMNS): string[] {
  return wrapped(text, label.padEnd(wide), width);
}

/** Splits a word into pieces of at most `room` columns; an empty word has none. */
export function broken(word: string, room = COLUMNS): string[] {
  if (word !== '' && word.length <= room && ASCII.test(word)) return [word];
  const pieces: string[] = [];
  let used = 0;
  for (const character of word) {
    const width = columns(character);
    if (pieces.length === 0 || used + width > room) {
      pieces.push('');
      used = 0;
    }
    pieces.push(pieces.pop()! + character);
    used += width;
  }
  return pieces;
}

const NONE = /^[\p{M}\p{Cf}]$/u;
/** Scripts and signs that are drawn two columns wide (Unicode Standard Annex 11, approximately). */
const TWO =
  /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\u3000-\u303e\uff01-\uff60\uffe0-\uffe6]$/u;
const ASCII = /^[\x20-\x7e]*$/;

export function columns(text: string): number {
  if (ASCII.test(text)) return text.length;
  let sum = 0;
  for (const character of text) sum += NONE.test(character) ? 0 : TWO.test(character) ? 2 : 1;
  return sum;
}
