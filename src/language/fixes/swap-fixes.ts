/** A mark outside the aperture was often written under the wrong stop. */
import { lookup, type Finding, type Span } from '../../model/index.ts';
import { readTree } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change, Fix } from './fix.ts';
import { entriesOf } from '../book/entries-of.ts';

export function swapFixes(book: Book, finding: Finding): Fix[] {
  if (finding.code !== 'mark.outside') return [];
  const cell = book.split.cells[finding.cell];
  const entry = entriesOf(book, finding.cell)[0]?.entry;
  if (!cell || entry?.kind !== 'marks') return [];
  const keys = stopKeys(cell.readings[0] ?? '');
  const [near, far] = [lookup(keys, 'near'), lookup(keys, 'far')] as const;
  if (!near || !far) return [];
  const change = ({ start, end }: Span, text: string): Change => ({
    start: cell.start + start,
    end: cell.start + end,
    text,
  });
  return [{ title: 'Swap near and far', changes: [change(near, 'far'), change(far, 'near')], finding }];
}

/** Spans of the stops that are keys in the cell. */
function stopKeys(reading: string): Record<string, Span> {
  const keys: Record<string, Span> = {};
  for (const [path, { key }] of readTree(reading).places) {
    const name = /^shots\/(\w+)$/.exec(path)?.[1];
    if (name !== undefined && key) keys[name] = key;
  }
  return keys;
}
