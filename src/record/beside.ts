/** The common keys of a visit's cells: photos, the machine's hours, and corrections. */
import { outlineOf, type Book } from '../language/index.ts';
import type { Amendment, Photo, Written } from '../model/index.ts';
import { table, type Block } from './blocks.ts';
import type { Visit } from './visit.ts';

/** `1234 h`, `1234 h to 1241.5 h`; undefined if the counter was not read. */
export function hoursInWords({ entries }: Visit): string | undefined {
  const read = entries.flatMap(({ entry }) => (entry.hours ? [`${entry.hours.hours} h`] : []));
  const [first, last] = [read[0], read.at(-1)];
  return first === last ? first : `${first} to ${last}`;
}

export function photoTable(book: Book, visit: Visit): Block[] {
  const rows = besideIn(book, visit, ({ photos = [] }) => photos).map(([cell, { file, sha256 = 'not written' }]) => [
    cell,
    file,
    sha256,
  ]);
  return table(['cell', 'photo', 'SHA-256'], rows);
}

/** All corrections in the file, including those of the machine above the visit. */
export function amendmentTable(book: Book): Block[] {
  const all = book.workbook.entries.map((logged, index) => ({ ...logged, index }));
  const rows = besideIn(book, { entries: all }, ({ amended = [] }) => amended).map(([cell, amendment]) => [
    cell,
    wasInWords(amendment),
    `${amendment.date}, ${amendment.by}`,
    amendment.reason,
  ]);
  return table(['cell', 'was', 'corrected', 'why'], rows, 1);
}

function besideIn<T>(
  book: Book,
  { entries }: Pick<Visit, 'entries'>,
  of: (entry: { readonly photos?: readonly Photo[]; readonly amended?: readonly Amendment[] }) => readonly T[],
): (readonly [cell: string, T])[] {
  const matching = entries.filter(({ entry }) => of(entry).length > 0);
  const names = matching.length === 0 ? [] : outlineOf(book, false);
  return matching.flatMap(({ entry, cell }) => {
    const start = book.split.cells[cell]!.start;
    const name = names.find((item) => item.start === start)?.name ?? entry.kind;
    return of(entry).map((one) => [name, one] as const);
  });
}

function wasInWords({ was }: Amendment): string {
  return was === undefined ? 'nothing' : Object.entries(was).map(keyInWords).join(', ');
}

function keyInWords([key, written]: readonly [string, Written]): string {
  return `${key}: ${inYaml(written)}`;
}

/** On one line, as typed between brackets. */
function inYaml(written: Written): string {
  if (written === null || typeof written === 'string') return written ?? '';
  if (Array.isArray(written)) return `[${(written as readonly Written[]).map(inYaml).join(', ')}]`;
  return `{${Object.entries(written as { readonly [key: string]: Written })
    .map(keyInWords)
    .join(', ')}}`;
}
