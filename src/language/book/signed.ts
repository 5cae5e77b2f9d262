/** Visits that somebody signed: what stands in them is asked about before a command changes it. */
import { visitsIn, type Signature, type Visit } from '../../model/index.ts';
import type { Book } from './book-type.ts';

/** Who signed the visit of this cell, and when, if it was signed after it; undefined if it was not. */
export function signatureBelow(book: Book, cell: number): Signature | undefined {
  const { entries } = book.workbook;
  const index = entries.findIndex((one) => one.cell === cell);
  const visit = visitsIn(entries).find(({ from, to }) => from <= index && index < to);
  const release = visit && releaseOf(book, visit);
  if (!release || release.cell < cell) return undefined;
  const { by, date } = release;
  return { ...(by !== undefined && { by }), ...(date !== undefined && { date }) };
}

/** The cells of signed visits, from the first one to the release. */
export function signedCells(book: Book): { readonly from: number; readonly to: number }[] {
  return visitsIn(book.workbook.entries).flatMap((visit) => {
    const release = releaseOf(book, visit);
    return release ? [{ from: firstWork(book, visit), to: release.cell }] : [];
  });
}

function releaseOf(book: Book, { from, to }: Visit) {
  for (const { cell, entry } of book.workbook.entries.slice(from, to))
    if (entry.kind === 'release') return { cell, by: entry.by, date: entry.date };
  return undefined;
}

/** The machine and the limits above the first visit are of all visits. */
function firstWork(book: Book, { from, to }: Visit): number {
  const own = book.workbook.entries
    .slice(from, to)
    .find(({ entry }) => entry.kind !== 'machine' && entry.kind !== 'limits');
  return own?.cell ?? -1;
}
