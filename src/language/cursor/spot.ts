/** What stands under an offset: the innermost key or value of its cell. Features are about spots, and look no closer. */
import { KINDS, type Kind, type Span } from '../../model/index.ts';
import { readTree, type Place } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt } from '../book/entries-of.ts';

export interface Spot {
  readonly cell: number;
  readonly kind: Kind;
  /** Keys and indexes. */
  readonly path: readonly string[];
  readonly part: 'key' | 'value';
  /** In the cell's text. */
  readonly span: Span;
  readonly text: string;
}

export function spotAt(book: Book, offset: number): Spot | undefined {
  const cell = cellAt(book, offset);
  const found = book.split.cells[cell];
  if (!found) return undefined;
  const at = offset - found.start;
  for (const reading of found.readings) {
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
): [path: string, part: Spot['part'], span: Span] | undefined {
  let best: [string, Spot['part'], Span] | undefined;
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
