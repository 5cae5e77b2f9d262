/** Workbooks that share machines: a name defined in one may be used in another. */
import { MessageType, ShowMessageNotification } from 'vscode-languageserver';
import { isSamePlace, type Opened } from './workspace.ts';
import type { Session } from './session.ts';

/**
 * Limits for a workbook that is not open: a larger one is not searched, and the user is notified. Reading one of this
 * size needs some hundred megabytes.
 */
const MOST_CELLS = 25_000;
const MOST_LETTERS = 8_000_000;

/**
 * Yields every open workbook, then those in the open folders one by one, each completely read. A caller that keeps none
 * of them needs memory for one.
 */
export async function* booksOf({ workspace, host, folders, connection }: Session): AsyncGenerator<Opened> {
  const open = workspace.all();
  for (const one of open) {
    await workspace.read(one);
    yield one;
  }
  const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
  const tooLong: string[] = [];
  for (const uri of new Set(uris)) {
    const one = await workspace.load(uri);
    if (!one || open.some(({ place }) => isSamePlace(place, one.place))) continue;
    if (isTooLong(one.book)) {
      tooLong.push(one.place.file);
      continue;
    }
    await workspace.read(one);
    yield one;
  }
  if (tooLong.length > 0)
    await connection.sendNotification(ShowMessageNotification.type, {
      type: MessageType.Warning,
      message: `Not searched because too long: ${tooLong.join(', ')}. Open a file to include it.`,
    });
}

/** Whether a workbook that is not open is too long to be read. */
export function isTooLong({ split, text }: Opened['book']): boolean {
  return split.cells.length > MOST_CELLS || text.length > MOST_LETTERS;
}

/** The workbook itself and those that it takes machines from. */
export async function sourcesOf({ workspace, host }: Session, opened: Opened): Promise<Opened[]> {
  const sources = [opened];
  await workspace.ready(opened);
  for (const file of opened.book.workbook.borrows) {
    const one = await workspace.load(host.uriOf({ root: opened.place.root, file }));
    if (!one || sources.includes(one)) continue;
    await workspace.ready(one);
    sources.push(one);
  }
  return sources;
}

/** The sources of this workbook, and all workbooks that take machines from one of them. */
export async function sharersOf(session: Session, opened: Opened): Promise<Opened[]> {
  const sources = await sourcesOf(session, opened);
  const isSource = (file: string) => sources.some(({ place }) => place.file === file);
  const sharers = [...sources];
  for await (const one of booksOf(session)) {
    const { place, book } = one;
    if (place.root === opened.place.root && !isSource(place.file) && book.workbook.borrows.some(isSource))
      sharers.push(one);
  }
  return sharers;
}
