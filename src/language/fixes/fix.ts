/** A change of the text with a title. */
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';

/** A replacement of text. */
export interface Change {
  /** Offsets in the file. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A named set of changes. */
export interface Fix {
  readonly title: string;
  readonly changes: readonly Change[];
  /** The finding that it fixes; absent for an offer. */
  readonly finding?: Finding;
  /** The most likely one. */
  readonly isPreferred?: boolean;
  /** May be applied without asking. */
  readonly isSafe?: boolean;
}

export function stretchOf({ split }: Book, { cell, span }: Finding): [start: number, end: number] {
  const from = split.cells[cell]?.start ?? 0;
  return [from + span.start, from + span.end];
}
