/** The workbooks that share machines: a name of one may be meant in another. */
import type { Opened } from './desk.ts';
import type { Session } from './session.ts';

/** Every workbook of the open folders, and every open one, read. */
export async function allBooks({ desk, host, folders }: Session): Promise<Opened[]> {
  const open = desk.all();
  const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
  const found = [...open];
  for (const uri of new Set(uris)) {
    const one = await desk.borrow(uri);
    if (one && !found.some(({ place }) => place.root === one.place.root && place.file === one.place.file)) found.push(one);
  }
  await Promise.all(found.map((one) => desk.read(one)));
  return found;
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
  const { root } = opened.place;
  const isSource = (file: string) => sources.some(({ place }) => place.file === file);
  const all = await allBooks(session);
  await Promise.all(all.map((one) => session.desk.ready(one)));
  const others = all.filter(({ place, book }) => place.root === root && !isSource(place.file) && book.workbook.borrows.some(isSource));
  return [...sources, ...others];
}
