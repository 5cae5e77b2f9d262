/**
 * The open workbooks, and the files that they take machines from. Work is done in slices, so that requests about
 * another workbook, or about this one while it is being read, are answered in between.
 */
import { createBook, type Book, type ReadFile, type Typed } from '../../language/index.ts';
import type { Host, Place } from '../hosts/host.ts';
import type { WorkbookDocument } from './workbook-document.ts';
import { waitAtMost } from './wait-at-most.ts';

/** Milliseconds of work before other requests get a turn. */
const SLICE = 2;
/** Milliseconds: a delay that a user does not notice. */
const SOON = 5;

export interface Opened {
  /** URI under which findings of the whole file are reported. */
  readonly uri: string;
  readonly place: Place;
  readonly book: Book;
  document: WorkbookDocument;
  /** The text when it was opened or saved; a cell that is not in it was edited since. */
  saved: string;
  /** The word that is being typed, if any. */
  typed?: Typed | undefined;
}

export interface Workspace {
  open(uri: string, document: WorkbookDocument): Opened;
  close(uri: string): void;
  /** @param uri of a document: of a text, or of a notebook cell */
  at(uri: string): Opened | undefined;
  /** @param uri of the workbook itself: of a text, or of a whole notebook */
  byUri(uri: string): Opened | undefined;
  all(): readonly Opened[];
  /** Makes every workbook that takes a machine from this one read it again. @returns those workbooks */
  changed(opened: Opened): readonly Opened[];
  /** A file on disk was written, created or deleted. @returns the open workbooks that read it again */
  changedOnDisk(uri: string): readonly Opened[];
  /** Resolves when the workbook is read and evaluated. */
  ready(opened: Opened): Promise<void>;
  /** Resolves when all cells have been read. */
  read(opened: Opened): Promise<void>;
  /** Resolves when the condition holds, or when the workbook is read and evaluated. */
  until(opened: Opened, isReached: (book: Book) => boolean): Promise<void>;
  /**
   * Resolves when the workbook is read and evaluated, or after a few milliseconds, so that a request right after a key
   * press is answered from what is read by then.
   */
  soon(opened: Opened): Promise<void>;
  /** Reads a workbook that is not open from disk; undefined if it cannot be read. */
  load(uri: string): Promise<Opened | undefined>;
}

export function createWorkspace(host: Host, documentOf: (uri: string, text: string) => WorkbookDocument): Workspace {
  return new SlicedWorkspace(host, documentOf);
}

type FileCache = Map<string, ReadFile>;

interface Working {
  readonly finished: Promise<void>;
  readonly since: number;
}

interface Waiter {
  readonly isReached: (book: Book) => boolean;
  readonly resolve: () => void;
}

class SlicedWorkspace implements Workspace {
  private readonly host: Host;
  private readonly documentOf: (uri: string, text: string) => WorkbookDocument;
  private readonly opened = new Map<string, Opened>();
  /** By root, then by path below it. */
  private readonly fileCaches = new Map<string, FileCache>();
  private readonly working = new WeakMap<Opened, Working>();
  private readonly waiters = new WeakMap<Opened, readonly Waiter[]>();

  constructor(host: Host, documentOf: (uri: string, text: string) => WorkbookDocument) {
    this.host = host;
    this.documentOf = documentOf;
  }

  open(uri: string, document: WorkbookDocument): Opened {
    const place = this.host.placeOf(uri);
    const book = createBook(this.host.tables, place.file, this.fileCache(place.root), document.text);
    book.closesAdvice = true;
    const opened = { uri, place, document, book, saved: document.text };
    this.opened.set(uri, opened);
    this.changed(opened);
    return opened;
  }

  close(uri: string): void {
    const opened = this.opened.get(uri);
    if (!opened) return;
    this.opened.delete(uri);
    // From here on the file on disk is used.
    this.fileCache(opened.place.root).delete(opened.place.file);
    this.reread(opened.place);
  }

  at(uri: string): Opened | undefined {
    const own = this.opened.get(uri);
    return own?.document.has(uri) ? own : this.all().find(({ document }) => document.has(uri));
  }

  byUri(uri: string): Opened | undefined {
    return this.opened.get(uri);
  }

  all(): readonly Opened[] {
    return [...this.opened.values()];
  }

  changed(opened: Opened): readonly Opened[] {
    this.fileCache(opened.place.root).set(opened.place.file, { text: opened.book.text });
    return this.reread(opened.place).filter((other) => other !== opened);
  }

  changedOnDisk(uri: string): readonly Opened[] {
    const place = this.host.placeOf(uri);
    const isOpen = this.all().some(({ place: other }) => isSamePlace(place, other));
    if (isOpen) return [];
    this.fileCache(place.root).delete(place.file);
    return this.reread(place);
  }

  private reread(place: Place): Opened[] {
    const borrowers = this.all().filter(
      (opened) => opened.place.root === place.root && opened.book.workbook.borrows.includes(place.file),
    );
    for (const { book } of borrowers) book.reread();
    return borrowers;
  }

  private fileCache(root: string): FileCache {
    let fileCache = this.fileCaches.get(root);
    if (!fileCache) this.fileCaches.set(root, (fileCache = new Map()));
    return fileCache;
  }

  ready(opened: Opened): Promise<void> {
    return this.workingOn(opened).finished;
  }

  private workingOn(opened: Opened): Working {
    let working = this.working.get(opened);
    if (!working) {
      const finished = this.work(opened).finally(() => {
        this.working.delete(opened);
        this.resolveReached(opened, () => true);
      });
      // The caller that awaits it handles the rejection.
      finished.catch(() => undefined);
      this.working.set(opened, (working = { finished, since: this.host.now() }));
    }
    return working;
  }

  read(opened: Opened): Promise<void> {
    return this.until(opened, ({ isRead, workbook }) => isRead && workbook.lacks.length === 0);
  }

  until(opened: Opened, isReached: (book: Book) => boolean): Promise<void> {
    if (isReached(opened.book)) return Promise.resolve();
    this.workingOn(opened);
    return new Promise((resolve) =>
      this.waiters.set(opened, [...(this.waiters.get(opened) ?? []), { isReached, resolve }]),
    );
  }

  async soon(opened: Opened): Promise<void> {
    const { finished: whole, since } = this.workingOn(opened);
    const left = since + SOON - this.host.now();
    // If the work has already taken longer, do not wait.
    if (left > 0) await waitAtMost(left, whole);
  }

  /** Resolves the promises whose condition now holds. */
  private resolveReached(opened: Opened, isReachedByAll: (book: Book) => boolean): void {
    const waiters = this.waiters.get(opened);
    if (!waiters) return;
    const left = waiters.filter(({ isReached, resolve }) => {
      const now = isReachedByAll(opened.book) || isReached(opened.book);
      if (now) resolve();
      return !now;
    });
    if (left.length > 0) this.waiters.set(opened, left);
    else this.waiters.delete(opened);
  }

  private async work(opened: Opened): Promise<void> {
    const { book, place } = opened;
    for (;;) {
      const end = this.host.now() + SLICE;
      const done = book.advance(() => this.host.now() > end);
      if (done && book.workbook.lacks.length === 0) return;
      this.resolveReached(opened, () => false);
      if (done) await this.loadLacking(book, place.root);
      else await this.host.turn();
    }
  }

  /** Loads every missing file once, whether or not that succeeds, so the loop in `work` ends. */
  private async loadLacking(book: Book, root: string): Promise<void> {
    const fileCache = this.fileCache(root);
    for (const file of book.workbook.lacks) {
      const loaded = await this.host.load({ root, file });
      // The file may have been opened while it was loading.
      if (!fileCache.has(file)) fileCache.set(file, loaded);
    }
    book.reread();
  }

  async load(uri: string): Promise<Opened | undefined> {
    const place = this.host.placeOf(uri);
    const open = this.all().find((opened) => isSamePlace(opened.place, place));
    if (open) return open;
    const loaded = await this.host.load(place);
    if ('reason' in loaded) return undefined;
    const { text } = loaded;
    return {
      uri,
      place,
      document: this.documentOf(uri, text),
      book: createBook(this.host.tables, place.file, this.fileCache(place.root), text),
      saved: text,
    };
  }
}

export function isSamePlace(one: Place, other: Place): boolean {
  return one.root === other.root && one.file === other.file;
}

/** Whether it is open as a notebook: then its documents are cells, none of them the file. */
export function isNotebook({ uri, document }: Opened): boolean {
  return !document.has(uri);
}
