/** Comments with instructions for this program: `# alignbook: …`. */
import type { Span } from '../model/index.ts';
import { commentsIn } from './comments.ts';

export interface Remark {
  /** −1 in the head. */
  readonly cell: number;
  readonly span: Span;
  /** The text after the colon. */
  readonly instruction: string;
}

const NONE: readonly Remark[] = [];

export function remarksIn(text: string, cell: number): readonly Remark[] {
  // Tested first, because finding comments takes a third of a parse, and most texts have no such comment.
  if (!text.includes('alignbook:')) return NONE;
  return commentsIn(text).flatMap((span) => {
    const instruction = /^#+\s*alignbook:\s*(?!\s)(.*)$/.exec(text.slice(span.start, span.end))?.[1];
    return instruction === undefined ? [] : [{ cell, span, instruction }];
  });
}
