/** The content of a record, independent of its output format. Texts are plain; each output escapes them. */
import type { TargetFigure, VisitsFigure } from '../model/index.ts';

/** One block of a record. */
export type Block =
  | { readonly kind: 'title' | 'heading' | 'subheading' | 'text'; readonly text: string }
  /** Across every page: what nobody may take for a record. */
  | { readonly kind: 'watermark'; readonly text: string }
  /** An important notice. */
  | { readonly kind: 'notice'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Names and values in rows. */
  | { readonly kind: 'facts'; readonly rows: readonly (readonly [name: string, value: string])[] }
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
      /** Index of the column that is struck through: the former value. */
      readonly struck?: number;
    }
  /** Side by side, each with its items below. */
  | { readonly kind: 'targets'; readonly targets: readonly DrawnTarget[] }
  | { readonly kind: 'visits'; readonly figures: readonly VisitsFigure[] }
  /** Lines for signatures by hand. */
  | { readonly kind: 'signatures'; readonly whose: readonly string[] };

export interface DrawnTarget {
  readonly caption: string;
  readonly figure: TargetFigure;
  readonly items: readonly string[];
}

/** A heading with its blocks; empty without blocks. */
export function section(heading: string, ...blocks: readonly Block[]): Block[] {
  return blocks.length === 0 ? [] : [{ kind: 'heading', text: heading }, ...blocks];
}

/**
 * A table without its empty columns; no table without rows.
 *
 * @param struck index of the column that is struck through; no column before it may be empty
 */
export function table(head: readonly string[], rows: readonly (readonly string[])[], struck?: number): Block[] {
  const isUsed = head.map((_, k) => rows.some((row) => row[k] !== ''));
  const narrowed = (cells: readonly string[]) => cells.filter((_, k) => isUsed[k]);
  return rows.length === 0
    ? []
    : [{ kind: 'table', head: narrowed(head), rows: rows.map(narrowed), ...(struck !== undefined && { struck }) }];
}
