/** The innermost key or value of a cell at an offset. */
import { KINDS, type Kind, type Span } from '../../model/index.ts';
import { readTree, type Place } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt } from '../book/entries-of.ts';

export interface CursorNode {
  readonly cell: number;
  readonly kind: Kind;
  /** Keys and indexes. */
  readonly path: readonly string[];
  readonly part: 'key' | 'value';
  /** In the cell's text. */
  readonly span: Span;
  readonly text: string;
}

export function nodeAt(book: Book, offset: number): CursorNode | undefined {
  const cell = cellAt(book, offset);
  const current = book.split.cells[cell];
  if (!current) return undefined;
  const at = offset - current.start;
  for (const reading of current.readings) {
    const places = readTree(reading).places;
    const kind = kindOf(places);
    const inner = kind && innermost(places, at);
    if (!inner) continue;
    const [path, part, span] = inner;
    return { cell, kind, path: path.split('/'), part, span, text: reading.slice(span.start, span.end) };
  }
  return undefined;
}

export function kindOf(places: ReadonlyMap<string, Place>): Kind | undefined {
  if (places.has('work')) return 'work';
  return KINDS.find((kind) => kind !== 'note' && places.has(kind)) ?? (places.has('note') ? 'note' : undefined);
}

function innermost(
  places: ReadonlyMap<string, Place>,
  at: number,
): [path: string, part: CursorNode['part'], span: Span] | undefined {
  let best: [string, CursorNode['part'], Span] | undefined;
  for (const [path, { key, span }] of places) {
    if (path === '') continue;
    for (const [part, stretch] of [
      ['key', key],
      ['value', span],
    ] as const) {
      if (!stretch || at < stretch.start || at > stretch.end || stretch.end === stretch.start) continue;
      if (!best || stretch.end - stretch.start < best[2].end - best[2].start) best = [path, part, stretch];
    }
  }
  return best;
}
