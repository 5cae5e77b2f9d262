import { SnippetString } from 'vscode';

/** A value to fill in: nothing between the colon and what closes it. */
const BLANK = /: (?=[,}\n]|$)/g;

/** Offsets of the values to fill in. */
export function blanksIn(text: string): number[] {
  return [...text.matchAll(BLANK)].map(({ index }) => index + 2);
}

/** The text with a tab stop in every blank. */
export function withTabStops(text: string): SnippetString {
  const snippet = new SnippetString();
  let from = 0;
  for (const at of blanksIn(text)) {
    snippet.appendText(text.slice(from, at)).appendTabstop();
    from = at;
  }
  return snippet.appendText(text.slice(from));
}
