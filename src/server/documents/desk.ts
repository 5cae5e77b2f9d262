/**
 * The workbooks that lie open, and what they borrow from. Work is done a slice at a time, so that who asks about another
 * workbook, or about this one while it is being read, is answered in between.
 */
import { createBook, type Book, type ReadFile, type Typed } from '../../language/index.ts';
import type { Host, Place } from '../hosts/host.ts';
import type { Paper } from './paper.ts';
import { within } from './within.ts';

/** Milliseconds of work between two looks at what else has come. */
const SLICE = 2;
/** Milliseconds that nobody notices. */
const SOON = 5;

export interface Opened {
  /** The address that findings of the whole are told under. */
  readonly uri: string;
  readonly place: Place;
  readonly book: Book;
  paper: Paper;
  /** The text when it was opened or saved: cells that are not in it were touched. */
  saved: string;
  /** Behind which a word is being typed. */
  typed?: Typed | undefined;
}

export interface Desk {
  open(uri: string, paper: Paper): Opened;
  close(uri: string): void;
  /** By the address of a document: a text, or a notebook's cell. */
  at(uri: string): Opened | undefined;
  /** By its own address: of a text, or of a notebook as a whole. */
  whole(uri: string): Opened | undefined;
  all(): readonly Opened[];
  /** Tells everybody who borrows from this workbook; those that do. */
  changed(opened: Opened): readonly Opened[];
  /** A file on disk was written, made or deleted. */
  changedOnDisk(uri: string): readonly Opened[];
  /** Resolves when everything about it is up to date. */
  ready(opened: Opened): Promise<void>;
  /** Resolves when all its cells have been read. */
  read(opened: Opened): Promise<void>;
  /** Resolves when this is so, or when everything is up to date. */
  until(opened: Opened, isSo: (book: Book) => boolean): Promise<void>;
  /** Resolves when everything is up to date, or in a moment: who asks right after a key is answered with what is known by then. */
  soon(opened: Opened): Promise<void>;
  /** A workbook that nobody has open, from disk; nothing where it cannot be had. */
  borrow(uri: string): Promise<Opened | undefined>;
}

export function createDesk(host: Host, paperOf: (uri: string, text: string) => Paper): Desk {
  return new SlicedDesk(host, paperOf);
}

type Files = Map<string, ReadFile>;

interface Working {
  readonly whole: Promise<void>;
  readonly since: number;
}

interface Waiting {
  readonly isSo: (book: Book) => boolean;
  readonly resolve: () => void;
}

class SlicedDesk implements Desk {
  private readonly host: Host;
  private readonly paperOf: (uri: string, text: string) => Paper;
  private readonly opened = new Map<string, Opened>();
  /** By root, then by path under it. */
  private readonly shelves = new Map<string, Files>();
  private readonly working = new WeakMap<Opened, Working>();
  private readonly waiting = new WeakMap<Opened, readonly Waiting[]>();

  constructor(host: Host, paperOf: (uri: string, text: string) => Paper) {
    this.host = host;
    this.paperOf = paperOf;
  }

  open(uri: string, paper: Paper): Opened {
    const place = this.host.placeOf(uri);
    const book = createBook(this.host.tables, place.file, this.shelf(place.root), paper.text);
    const opened = { uri, place, paper, book, saved: paper.text };
    this.opened.set(uri, opened);
    this.changed(opened);
    return opened;
  }

  close(uri: string): void {
    const opened = this.opened.get(uri);
    if (!opened) return;
    this.opened.delete(uri);
    // What is on disk counts again.
    this.shelf(opened.place.root).delete(opened.place.file);
    this.reread(opened.place);
  }

  at(uri: string): Opened | undefined {
    const own = this.opened.get(uri);
    return own?.paper.has(uri) ? own : this.all().find(({ paper }) => paper.has(uri));
  }

  whole(uri: string): Opened | undefined {
    return this.opened.get(uri);
  }

  all(): readonly Opened[] {
    return [...this.opened.values()];
  }

  changed(opened: Opened): readonly Opened[] {
    this.shelf(opened.place.root).set(opened.place.file, { text: opened.book.text });
    return this.reread(opened.place).filter((other) => other !== opened);
  }

  changedOnDisk(uri: string): readonly Opened[] {
    const place = this.host.placeOf(uri);
    const isOpen = this.all().some(({ place: other }) => isSamePlace(place, other));
    if (isOpen) return [];
    this.shelf(place.root).delete(place.file);
    return this.reread(place);
  }

  private reread(place: Place): Opened[] {
    const borrowers = this.all().filter(
      (opened) => opened.place.root === place.root && opened.book.workbook.borrows.includes(place.file),
    );
    for (const { book } of borrowers) book.reread();
    return borrowers;
  }

  private shelf(root: string): Files {
    let shelf = this.shelves.get(root);
    if (!shelf) this.shelves.set(root, (shelf = new Map()));
    return shelf;
  }

  ready(opened: Opened): Promise<void> {
    return this.workingOn(opened).whole;
  }

  private workingOn(opened: Opened): Working {
    let working = this.working.get(opened);
    if (!working) {
      const whole = this.work(opened).finally(() => {
        this.working.delete(opened);
        this.tell(opened, () => true);
      });
      // What goes wrong is told by those who wait for it.
      whole.catch(() => undefined);
      this.working.set(opened, (working = { whole, since: this.host.now() }));
    }
    return working;
  }

  read(opened: Opened): Promise<void> {
    return this.until(opened, ({ isRead, workbook }) => isRead && workbook.lacks.length === 0);
  }

  until(opened: Opened, isSo: (book: Book) => boolean): Promise<void> {
    if (isSo(opened.book)) return Promise.resolve();
    this.workingOn(opened);
    return new Promise((resolve) => this.waiting.set(opened, [...(this.waiting.get(opened) ?? []), { isSo, resolve }]));
  }

  async soon(opened: Opened): Promise<void> {
    const { whole, since } = this.workingOn(opened);
    const left = since + SOON - this.host.now();
    // What has taken longer already is not waited for at all.
    if (left > 0) await within(left, whole);
  }

  /** Those who wait for what has come about. */
  private tell(opened: Opened, isAll: (book: Book) => boolean): void {
    const waiting = this.waiting.get(opened);
    if (!waiting) return;
    const left = waiting.filter(({ isSo, resolve }) => {
      const now = isAll(opened.book) || isSo(opened.book);
      if (now) resolve();
      return !now;
    });
    if (left.length > 0) this.waiting.set(opened, left);
    else this.waiting.delete(opened);
  }

  private async work(opened: Opened): Promise<void> {
    const { book, place } = opened;
    for (;;) {
      const end = this.host.now() + SLICE;
      const done = book.advance(() => this.host.now() > end);
      if (done && book.workbook.lacks.length === 0) return;
      this.tell(opened, () => false);
      if (done) await this.lend(book, place.root);
      else await this.host.turn();
    }
  }

  /** Every file is loaded once, whatever becomes of it, so this ends. */
  private async lend(book: Book, root: string): Promise<void> {
    const shelf = this.shelf(root);
    for (const file of book.workbook.lacks) {
      const found = await this.host.load({ root, file });
      // Somebody may have opened it meanwhile.
      if (!shelf.has(file)) shelf.set(file, found);
    }
    book.reread();
  }

  async borrow(uri: string): Promise<Opened | undefined> {
    const place = this.host.placeOf(uri);
    const open = this.all().find((opened) => isSamePlace(opened.place, place));
    if (open) return open;
    const found = await this.host.load(place);
    if ('reason' in found) return undefined;
    const { text } = found;
    return {
      uri,
      place,
      paper: this.paperOf(uri, text),
      book: createBook(this.host.tables, place.file, this.shelf(place.root), text),
      saved: text,
    };
  }
}

export function isSamePlace(one: Place, other: Place): boolean {
  return one.root === other.root && one.file === other.file;
}
