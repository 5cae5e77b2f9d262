/** A mark outside the hole is often one that was written under the wrong stop, or in inches. */
import { lookup, type Finding, type Span } from '../../model/index.ts';
import { readTree } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change, Fix } from './fix.ts';
import { entriesOf } from '../book/entries-of.ts';

export function swapFixes(book: Book, finding: Finding): Fix[] {
  if (finding.code !== 'mark.outside') return [];
  const found = book.split.cells[finding.cell];
  const entry = entriesOf(book, finding.cell)[0]?.entry;
  if (!found || entry?.kind !== 'marks') return [];
  const keys = stopKeys(found.readings[0] ?? '');
  const [near, far] = [lookup(keys, 'near'), lookup(keys, 'far')] as const;
  if (!near || !far) return [];
  const change = ({ start, end }: Span, text: string): Change => ({
    start: found.start + start,
    end: found.start + end,
    text,
  });
  return [{ title: 'Swap near and far', changes: [change(near, 'far'), change(far, 'near')], finding }];
}

/** Where the stops stand that the cell names as keys. */
function stopKeys(reading: string): Record<string, Span> {
  const keys: Record<string, Span> = {};
  for (const [path, { key }] of readTree(reading).places) {
    const name = /^shots\/(\w+)$/.exec(path)?.[1];
    if (name !== undefined && key) keys[name] = key;
  }
  return keys;
}
