/** Spans of a cell's text that are visible in an editor: line ends and positions after the text are excluded. */
import type { Span } from '../model/index.ts';

/** The empty span after a key without a value. */
export function afterKey(key: Span | undefined): Span {
  return key === undefined ? { start: 0, end: 0 } : { start: key.end, end: key.end };
}

/** Without white space at the end, which a block's range includes. */
export function trimmed(text: string, start: number, end: number): Span {
  let last = end;
  while (last > start && /\s/.test(text[last - 1]!)) last--;
  return { start, end: last };
}

/** Something missing at the end is shown at the last character. */
export function visible(text: string, start: number, end: number): Span {
  const last = Math.max(1, text.trimEnd().length);
  return within(text, Math.min(start, last - 1), Math.min(Math.max(end, start + 1), last));
}

export function within(text: string, start: number, end: number): Span {
  const from = Math.min(Math.max(0, start), text.length);
  return { start: from, end: Math.min(Math.max(from, end), text.length) };
}

/** The first line that is neither blank nor a comment. */
export function firstLine(text: string): Span {
  const start = /^(?:[ \t]*(?:#.*)?\r?\n)*[ \t]*/.exec(text)?.[0].length ?? 0;
  const end = text.slice(start, start + 200).search(/[\r\n]/);
  return { start, end: end < 0 ? Math.min(text.length, start + 200) : start + end };
}
