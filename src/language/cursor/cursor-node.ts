/** The innermost key or value of a cell at an offset. */
import { keysOf, KINDS, pathTo, ROOT, type Kind, type Path, type Span } from '../../model/index.ts';
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
    return { cell, kind, path: keysOf(path), part, span, text: reading.slice(span.start, span.end) };
  }
  return undefined;
}

export function kindOf(places: ReadonlyMap<Path, Place>): Kind | undefined {
  if (places.has(pathTo('work'))) return 'work';
  return (
    KINDS.find((kind) => kind !== 'note' && places.has(pathTo(kind))) ??
    (places.has(pathTo('note')) ? 'note' : undefined)
  );
}

function innermost(
  places: ReadonlyMap<Path, Place>,
  at: number,
): [path: Path, part: CursorNode['part'], span: Span] | undefined {
  let best: [Path, CursorNode['part'], Span] | undefined;
  for (const [path, { key, span }] of places) {
    if (path === ROOT) continue;
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
