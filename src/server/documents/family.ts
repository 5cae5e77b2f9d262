/** The workbooks that share machines: a name of one may be meant in another. */
import { MessageType, ShowMessageNotification } from 'vscode-languageserver';
import { isSamePlace, type Opened } from './desk.ts';
import type { Session } from './session.ts';

/** Of a workbook that lies closed: more are not looked through, and it is said. Some hundred megabytes are needed for as much. */
const MOST_CELLS = 25_000;
const MOST_LETTERS = 8_000_000;

/** Every open workbook, then those in the open folders one by one, read: who keeps none of them needs the memory of one. */
export async function* booksOf({ desk, host, folders, connection }: Session): AsyncGenerator<Opened> {
  const open = desk.all();
  for (const one of open) {
    await desk.read(one);
    yield one;
  }
  const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
  const tooLong: string[] = [];
  for (const uri of new Set(uris)) {
    const one = await desk.borrow(uri);
    if (!one || open.some(({ place }) => isSamePlace(place, one.place))) continue;
    if (one.book.split.cells.length > MOST_CELLS || one.book.text.length > MOST_LETTERS) {
      tooLong.push(one.place.file);
      continue;
    }
    await desk.read(one);
    yield one;
  }
  if (tooLong.length > 0)
    await connection.sendNotification(ShowMessageNotification.type, {
      type: MessageType.Warning,
      message: `Not searched because too long: ${tooLong.join(', ')}. Open a file to include it.`,
    });
}

/** Those that this one takes machines from, itself first. */
export async function sourcesOf({ desk, host }: Session, opened: Opened): Promise<Opened[]> {
  const found = [opened];
  await desk.ready(opened);
  for (const file of opened.book.workbook.borrows) {
    const one = await desk.borrow(host.uriOf({ root: opened.place.root, file }));
    if (!one || found.includes(one)) continue;
    await desk.ready(one);
    found.push(one);
  }
  return found;
}

/** Those that take machines from any of its sources, and these. */
export async function familyOf(session: Session, opened: Opened): Promise<Opened[]> {
  const sources = await sourcesOf(session, opened);
  const isSource = (file: string) => sources.some(({ place }) => place.file === file);
  const family = [...sources];
  for await (const one of booksOf(session)) {
    const { place, book } = one;
    if (place.root === opened.place.root && !isSource(place.file) && book.workbook.borrows.some(isSource))
      family.push(one);
  }
  return family;
}
