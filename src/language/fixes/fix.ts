/** A change of the text with a name that says what it does, and where it belongs. */
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';

export interface Change {
  /** Offsets in the file. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface Fix {
  readonly title: string;
  readonly changes: readonly Change[];
  /** What it mends; nothing for an offer. */
  readonly finding?: Finding;
  /** The one that is meant most often. */
  readonly isPreferred?: boolean;
  /** May be made without asking. */
  readonly isSafe?: boolean;
}

export function stretchOf({ split }: Book, { cell, span }: Finding): [start: number, end: number] {
  const from = split.cells[cell]?.start ?? 0;
  return [from + span.start, from + span.end];
}
