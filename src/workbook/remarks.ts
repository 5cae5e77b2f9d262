/** What comments say to this program: `# alignbook: …`. */
import type { Span } from '../model/index.ts';
import { commentsIn } from './comments.ts';

export interface Remark {
  /** −1 in the head. */
  readonly cell: number;
  readonly span: Span;
  /** Behind the colon. */
  readonly said: string;
}

const NONE: readonly Remark[] = [];

export function remarksIn(text: string, cell: number): readonly Remark[] {
  // First, because finding comments costs a third of a parse, and most texts say nothing to this program.
  if (!text.includes('alignbook:')) return NONE;
  return commentsIn(text).flatMap((span) => {
    const said = /^#+\s*alignbook:\s*(?!\s)(.*)$/.exec(text.slice(span.start, span.end))?.[1];
    return said === undefined ? [] : [{ cell, span, said }];
  });
}
