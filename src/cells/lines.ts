/**
 * Lines as the format defines them: only LF and CRLF end a line. A lone CR, and other characters that editors or YAML
 * treat as line ends, are ordinary characters.
 */

export interface Position {
  /** 0-based */
  readonly line: number;
  /** 0-based, UTF-16 units */
  readonly character: number;
}

/** Converts offsets of one text to positions. */
export interface LineIndex {
  /** The position of an offset; one beyond the text, or between CR and LF, is at the end of the line. */
  positionAt(offset: number): Position;
}

/** An index of the lines of a text, for lookup by binary search. A BOM is not part of line 1. */
export function lineIndex(text: string): LineIndex {
  const starts = [textStart(text)];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return {
    positionAt(offset) {
      const within = Math.max(starts[0]!, Math.min(offset, text.length));
      let [low, high] = [0, starts.length];
      while (high - low > 1) {
        const half = (low + high) >> 1;
        if (starts[half]! <= within) low = half;
        else high = half;
      }
      return { line: low, character: Math.min(within, lineEnd(text, starts[low]!)) - starts[low]! };
    },
  };
}

/** Offset of the first line: after a byte order mark. */
export function textStart(text: string): number {
  return text.charCodeAt(0) === 0xfeff ? 1 : 0;
}

/** The end of the line that contains `at`, without its line end. */
export function lineEnd(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  if (feed < 0) return text.length;
  return feed > at && text[feed - 1] === '\r' ? feed - 1 : feed;
}

/** The start of the line after the one that contains `at`; the text's end for the last line. */
export function nextLine(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  return feed < 0 ? text.length : feed + 1;
}

/** The line end of a file: that of its first line, else LF. */
export function lineEndOf(text: string): '\n' | '\r\n' {
  const feed = text.indexOf('\n');
  return feed > 0 && text[feed - 1] === '\r' ? '\r\n' : '\n';
}

/** Whether the line is blank or a comment. */
export function isIdle(text: string, from: number): boolean {
  let at = from;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return at === text.length || text[at] === '#' || text[at] === '\n' || (text[at] === '\r' && text[at + 1] === '\n');
}
