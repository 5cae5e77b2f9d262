/** What a record is made of, whatever it is written in. Texts are plain: who writes them down keeps them from being read as anything else. */
import type { TargetFigure, VisitsFigure } from '../model/index.ts';

export type Block =
  | { readonly kind: 'title' | 'heading' | 'subheading' | 'text'; readonly text: string }
  /** What is not to be overlooked. */
  | { readonly kind: 'notice'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Name and value, one below the other. */
  | { readonly kind: 'facts'; readonly rows: readonly (readonly [name: string, value: string])[] }
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
      /** Index of the column that is struck through: what held before. */
      readonly struck?: number;
    }
  /** Side by side, with what is told of each below it. */
  | { readonly kind: 'targets'; readonly targets: readonly DrawnTarget[] }
  | { readonly kind: 'visits'; readonly figures: readonly VisitsFigure[] }
  /** Lines to be signed by hand. */
  | { readonly kind: 'signatures'; readonly whose: readonly string[] };

export interface DrawnTarget {
  readonly caption: string;
  readonly figure: TargetFigure;
  readonly items: readonly string[];
}

/** A heading and what stands under it; nothing where nothing does. */
export function section(heading: string, ...blocks: readonly Block[]): Block[] {
  return blocks.length === 0 ? [] : [{ kind: 'heading', text: heading }, ...blocks];
}

/**
 * Without the columns in which nothing stands; nothing where there is no row.
 *
 * @param struck index of a column that is struck through, and none before it is empty
 */
export function table(head: readonly string[], rows: readonly (readonly string[])[], struck?: number): Block[] {
  const kept = head.map((_, k) => rows.some((row) => row[k] !== ''));
  const narrowed = (cells: readonly string[]) => cells.filter((_, k) => kept[k]);
  return rows.length === 0
    ? []
    : [{ kind: 'table', head: narrowed(head), rows: rows.map(narrowed), ...(struck !== undefined && { struck }) }];
}
