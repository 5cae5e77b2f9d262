/** Line starts and ends: only LF and CRLF end a line. */

/** The end of the line, without its line end. */
export function lineEndAt(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  const end = feed < 0 ? text.length : feed;
  return end > at && text[end - 1] === '\r' ? end - 1 : end;
}

export function lineStartAt(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}
