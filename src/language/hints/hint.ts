/** An inlay hint. */
import type { Span } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { IndexedEntry } from '../book/entries-of.ts';

export const HINT_KINDS = ['marks', 'verdicts', 'turns', 'steps', 'results'] as const;

export type HintKind = (typeof HINT_KINDS)[number];

export interface Hint {
  readonly kind: HintKind;
  /** Offset in the file. */
  readonly at: number;
  readonly label: string;
  /** Markdown. */
  readonly tooltip: string;
}

/** A hint relative to its cell: after the line of this span. */
export interface Behind {
  readonly span: Span;
  readonly label: string;
  readonly tooltip: string;
  /** Directly after the span instead of after its line. */
  readonly inLine?: boolean;
}

export type HintsFor = (book: Book, logged: IndexedEntry) => readonly Behind[];
