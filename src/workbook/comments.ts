/** The comments of a text. A `#` inside a quoted text or a block of text is none. */
import type { Span } from '../model/index.ts';
import { lexed } from './lexing.ts';

export function commentsIn(text: string): Span[] {
  const comments: Span[] = [];
  for (const { token, start, scalar } of lexed(text)) {
    if (token[0] === '#' && !scalar) comments.push({ start, end: start + token.trimEnd().length });
  }
  return comments;
}
