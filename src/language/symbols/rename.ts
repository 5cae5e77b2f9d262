/** One name for another, wherever it stands for the same thing. */
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';
import { isSame, namesIn, type NameUse } from './names.ts';
import { linksOf } from './structure.ts';

/** What is wrong with a name; nothing where it can be taken. */
export function refusal(name: string, { role, of }: NameUse, books: readonly Book[]): string | undefined {
  if (!/^[A-Za-z][A-Za-z0-9_]*$/.test(name))
    return `\`${name}\` is not a valid name. Use a letter first, then letters, digits and \`_\`.`;
  if ((role === 'station' && name === 'tube') || (role === 'stop' && name === 'here'))
    return `\`${name}\` is reserved.`;
  const taken = books.some((book) =>
    namesIn(book, undefined, undefined, name).some(
      (use) => use.role === role && use.of === of && use.name === name && use.isDefinition,
    ),
  );
  return taken ? `The name \`${name}\` is already used for a ${role}.` : undefined;
}

/** A stop's station and a screw's mount keep their names; uses under another machine are others' names. */
export function usesOf(book: Book, name: NameUse): NameUse[] {
  return namesIn(book, undefined, undefined, name.name).filter((use) => isSame(use, name));
}

export function renaming(book: Book, name: NameUse, to: string): Change[] {
  return usesOf(book, name).map(({ start, end }) => ({ start, end, text: to }));
}

/**
 * Files have moved, this one or those that it borrows from: what it says of them.
 * @param moved where a file is then; paths relative to the root, `/` between folders
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
