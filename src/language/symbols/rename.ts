/** Renames a user-defined name wherever it refers to the same thing. */
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';
import { isSame, namesIn, type NameUse } from './names.ts';
import { linksOf } from './structure.ts';

/** Why a name cannot be used; undefined if it can. */
export function refusal(name: string, { role, of }: NameUse, books: readonly Book[]): string | undefined {
  if (!/^[A-Za-z][A-Za-z0-9_]*$/.test(name))
    return `\`${name}\` is not a valid name. Use a letter first, then letters, digits and \`_\`.`;
  if ((role === 'station' && name === 'tube') || (role === 'stop' && name === 'here'))
    return `\`${name}\` is reserved.`;
  const isTaken = books.some((book) =>
    namesIn(book, undefined, undefined, name).some(
      (use) => use.role === role && use.of === of && use.name === name && use.isDefinition,
    ),
  );
  return isTaken ? `The name \`${name}\` is already used for a ${role}.` : undefined;
}

/**
 * All uses of a name. A stop belongs to its station, a screw to its mount; uses under another machine are different
 * names.
 */
export function usesOf(book: Book, name: NameUse): NameUse[] {
  return namesIn(book, undefined, undefined, name.name).filter((use) => isSame(use, name));
}

/** The changes that rename every use of a name in one book. */
export function renaming(book: Book, name: NameUse, to: string): Change[] {
  return usesOf(book, name).map(({ start, end }) => ({ start, end, text: to }));
}

/**
 * The changes of file references in a workbook after files were moved.
 * @param moved the new path of a file; paths relative to the root, `/` between folders
 */
export function refiling(book: Book, moved: (file: string) => string): Change[] {
  const folder = moved(book.file).split('/').slice(0, -1);
  const isMoved = moved(book.file) !== book.file;
  return linksOf(book)
    .filter(({ file }) => isMoved || moved(file) !== file)
    .flatMap(({ start, end, file }) => {
      const text = relative(folder, moved(file));
      return text === book.text.slice(start, end) ? [] : [{ start, end, text }];
    });
}

function relative(folder: readonly string[], to: string): string {
  const parts = to.split('/');
  let same = 0;
  while (same < folder.length && same < parts.length - 1 && folder[same] === parts[same]) same++;
  return [...folder.slice(same).map(() => '..'), ...parts.slice(same)].join('/');
}
