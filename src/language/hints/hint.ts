/** A value beside the text. */
import type { Span } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Standing } from '../book/entries-of.ts';

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

/** A hint before it is known where its cell begins: behind this span's line. */
export interface Behind {
  readonly span: Span;
  readonly label: string;
  readonly tooltip: string;
  /** Right behind the span, and not behind its line. */
  readonly inLine?: boolean;
}

export type HintsFor = (book: Book, standing: Standing) => readonly Behind[];
