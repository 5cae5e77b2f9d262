/**
 * Lines as the format has them: only LF and CRLF end one. A lone CR, and the other characters that editors or YAML
 * take for a line's end, are characters like any other here.
 */

export interface Position {
  /** 0-based */
  readonly line: number;
  /** 0-based, UTF-16 units */
  readonly character: number;
}

export interface LineIndex {
  /** Where an offset stands; one beyond the text, or between CR and LF, stands at the end before it. */
  positionAt(offset: number): Position;
}

/** The lines of a text, found once; each look-up is then a binary search. A BOM is not part of line 1. */
export function lineIndex(text: string): LineIndex {
  const starts = [afterMark(text)];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return {
    positionAt(offset) {
      const within = Math.max(starts[0]!, Math.min(offset, text.length));
      let [low, high] = [0, starts.length];
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (starts[middle]! <= within) low = middle;
        else high = middle;
      }
      return { line: low, character: Math.min(within, lineEnd(text, starts[low]!)) - starts[low]! };
    },
  };
}

/** Where the first line begins: behind a byte order mark. */
export function afterMark(text: string): number {
  return text.charCodeAt(0) === 0xfeff ? 1 : 0;
}

/** The end of the line that `at` is in, its line end not included. */
export function lineEnd(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  if (feed < 0) return text.length;
  return feed > at && text[feed - 1] === '\r' ? feed - 1 : feed;
}

/** Where the line after the one that `at` is in begins; the text's end for the last. */
export function nextLine(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  return feed < 0 ? text.length : feed + 1;
}

/** The line end that a file uses: that of its first line, LF where it has none. */
export function lineEndOf(text: string): '\n' | '\r\n' {
  const feed = text.indexOf('\n');
  return feed > 0 && text[feed - 1] === '\r' ? '\r\n' : '\n';
}

/** Blank, or a comment. */
export function isIdle(text: string, from: number): boolean {
  let at = from;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return at === text.length || text[at] === '#' || text[at] === '\n' || (text[at] === '\r' && text[at + 1] === '\n');
}
