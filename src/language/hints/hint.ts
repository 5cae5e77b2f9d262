/** An inlay hint. */
import type { Span } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { IndexedEntry } from '../book/entries-of.ts';

/** The kinds of inlay hints, each with a setting of its own. */
export const HINT_KINDS = ['marks', 'verdicts', 'turns', 'results'] as const;

/** One of `HINT_KINDS`. */
export type HintKind = (typeof HINT_KINDS)[number];

/** An inlay hint at an offset of the file. */
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
