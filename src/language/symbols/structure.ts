/** Folding ranges, selection ranges, and links to other files. */
import { pathTo } from '../../model/index.ts';
import { readTree, resolvePath } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { cellAt } from '../book/entries-of.ts';

/** Offsets in the file. */
export interface Extent {
  readonly start: number;
  readonly end: number;
}

/** Every cell, and every block of top-level keys over several lines. */
export function foldsOf({ split }: Book): Extent[] {
  return split.cells.flatMap(({ start, text }) => {
    const end = start + text.trimEnd().length;
    const first = start + (/^(?:---[^\n]*\n)?(?:[ \t]*(?:#[^\n]*)?\n)*/.exec(text)?.[0].length ?? 0);
    const blocks = [...text.matchAll(/^[\w-]+:[^\n]*(?:\n(?: [^\n]*)?)*/gm)].flatMap(({ index, 0: written }) => {
      const block = written.trimEnd();
      return block.includes('\n') ? [{ start: start + index, end: start + index + block.length }] : [];
    });
    return [{ start: first, end }, ...blocks].filter((extent) => extent.end > extent.start);
  });
}

/** Innermost first: the value, its pair, the enclosing values, the cell. */
export function selectionAt({ split, text }: Book, offset: number): Extent[] {
  const cell = split.cells[cellAt({ split }, offset)];
  if (!cell) return [{ start: 0, end: text.length }];
  const at = offset - cell.start;
  const places = [...readTree(cell.readings[0] ?? '').places].flatMap(([, { key, span }]) => [
    ...(key ? [key, { start: key.start, end: Math.max(key.end, span.end) }] : []),
    span,
  ]);
  const around = places
    .filter(({ start, end }) => start <= at && at <= end)
    .map(({ start, end }) => ({ start: cell.start + start, end: cell.start + end }));
  const all = [...around, { start: cell.start, end: cell.start + cell.text.length }, { start: 0, end: text.length }];
  const sorted = all.sort((one, other) => one.end - one.start - (other.end - other.start));
  // Each contains the one before it.
  return sorted.filter(
    ({ start, end }, k) =>
      k === 0 ||
      (start <= sorted[k - 1]!.start &&
        end >= sorted[k - 1]!.end &&
        (start !== sorted[k - 1]!.start || end !== sorted[k - 1]!.end)),
  );
}

/** A span of text that names another file. */
export interface Link extends Extent {
  /** Relative to the root, `/` between folders. */
  readonly file: string;
}

/** The files that machines are taken from; files outside the root are left out. */
export function linksOf({ workbook, split, file: own }: Book): Link[] {
  return workbook.entries.flatMap(({ cell, entry }): Link[] => {
    const span =
      entry.kind === 'machine' || (entry.kind === 'unread' && entry.of === 'machine')
        ? entry.spans[pathTo('from')]
        : undefined;
    const source = split.cells[cell];
    if (!span || !source || span.end === span.start) return [];
    const written = source.text.slice(span.start, span.end);
    const quoted = /^(["'])(.*)\1$/.exec(written);
    const start = source.start + span.start + (quoted ? 1 : 0);
    const path = quoted ? quoted[2]! : written;
    const file = resolvePath(own, path);
    return file === undefined ? [] : [{ start, end: start + path.length, file }];
  });
}
