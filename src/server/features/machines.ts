/**
 * Every workbook in the open folders, for a list of machines: open documents as they are edited, others as they are on
 * disk. Files are read one by one, so that a first answer comes early, an open workbook comes first, and what was read
 * is kept until its file changes.
 */
import type { CancellationToken } from 'vscode-languageserver';
import { isDescription, summaryInParts } from '../../language/index.ts';
import {
  MACHINES_CHANGED,
  type ListedMachine,
  type MachineList,
  type MachinesParams,
  type MachineSummary,
} from '../../model/index.ts';
import type { Place } from '../hosts/host.ts';
import { guarded, type Session } from '../documents/session.ts';
import { isSamePlace, type Opened } from '../documents/workspace.ts';
import { isTooLong } from '../documents/sharers.ts';

/** Milliseconds until an answer is given with what is read by then. */
const AT_ONCE = 150;

interface File {
  readonly uri: string;
  readonly place: Place;
}

/** The result of one file. */
interface Read {
  readonly place: Place;
  readonly today: string;
  readonly machine: ListedMachine;
  /** Files that it takes machines from. */
  readonly borrows: readonly Place[];
  readonly isDescription: boolean;
  /** What it was computed from: the workbook's own entries if it is open, and those of open files that it borrows from. */
  readonly from: readonly unknown[];
}

export class Machines {
  private readonly session: Session;
  private files: readonly File[] | undefined;
  private isWanted = false;
  /** By URI. */
  private readonly known = new Map<string, Read>();

  constructor(session: Session) {
    this.session = session;
    session.connection.onRequest(
      'alignbook/machines',
      guarded(session, 'alignbook/machines', null, (params: MachinesParams, token) => this.answer(params, token)),
    );
  }

  /** Files were written, created, deleted or renamed. */
  changedOnDisk(uris: readonly string[]): void {
    this.files = undefined;
    const places = uris.map((uri) => this.session.host.placeOf(uri));
    const isChanged = (place: Place) => places.some((one) => isSamePlace(one, place));
    for (const [uri, { borrows }] of this.known)
      if (uris.includes(uri) || borrows.some(isChanged) || isChanged(this.session.host.placeOf(uri)))
        this.known.delete(uri);
    this.notify();
  }

  foldersChanged(): void {
    this.files = undefined;
    this.notify();
  }

  /** Other clients have no such list. */
  private notify(): void {
    if (this.isWanted) void this.session.connection.sendNotification(MACHINES_CHANGED);
  }

  private async answer({ today, anew }: MachinesParams, token: CancellationToken): Promise<MachineList> {
    const { host } = this.session;
    this.isWanted = true;
    if (anew === true) {
      this.files = undefined;
      this.known.clear();
    }
    const end = host.now() + AT_ONCE;
    const reads: Read[] = [];
    let [count, rest] = [0, 0];
    for (const file of await this.listed()) {
      const before = this.known.get(file.uri);
      const isKnown = before !== undefined && this.isCurrent(before, today);
      // At least one each time, so that repeated requests come to an end.
      const isLate = token.isCancellationRequested || (count > 0 && host.now() > end);
      if (isKnown || isLate) {
        // Until it is read again, what was known is shown.
        if (before) reads.push(before);
        if (!isKnown) rest += 1;
        continue;
      }
      const read = await this.read(file, today);
      this.known.set(file.uri, read);
      reads.push(read);
      count += 1;
    }
    return { machines: shown(reads), rest };
  }

  private async listed(): Promise<readonly File[]> {
    if (this.files) return this.files;
    const { host, folders } = this.session;
    const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
    this.files = [...new Set(uris)].map((uri) => ({ uri, place: host.placeOf(uri) }));
    for (const uri of [...this.known.keys()]) if (!uris.includes(uri)) this.known.delete(uri);
    return this.files;
  }

  /** Whether nothing that it was computed from has changed. */
  private isCurrent(read: Read, today: string): boolean {
    const now = this.sources(read.place, read.borrows);
    return read.today === today && now.every((source, k) => source === read.from[k]);
  }

  private sources(place: Place, borrows: readonly Place[]): unknown[] {
    return [place, ...borrows].map((one) => this.openAt(one)?.book.workbook);
  }

  private openAt(place: Place): Opened | undefined {
    return this.session.workspace.all().find((opened) => isSamePlace(opened.place, place));
  }

  private async read(file: File, today: string): Promise<Read> {
    const { workspace, connection } = this.session;
    // Who edits is answered first.
    await Promise.all(workspace.all().map((opened) => workspace.ready(opened)));
    try {
      return await this.summarised(file, today);
    } catch (problem) {
      connection.console.error(
        `${file.uri}: ${problem instanceof Error ? (problem.stack ?? problem.message) : problem}`,
      );
      return this.unreadable(file, today, 'it cannot be evaluated');
    }
  }

  private async summarised(file: File, today: string): Promise<Read> {
    const { host, workspace } = this.session;
    const opened = this.openAt(file.place) ?? (await this.loaded(file));
    if (!opened) {
      const loaded = await host.load(file.place);
      return this.unreadable(file, today, 'reason' in loaded ? loaded.reason : 'it changed while it was read');
    }
    const { book, place } = opened;
    if (!workspace.all().includes(opened) && isTooLong(book)) return this.unreadable(file, today, TOO_LONG);
    await workspace.ready(opened);
    const borrows = book.workbook.borrows.map((path) => ({ root: place.root, file: path }));
    // Before it is computed: what changes meanwhile makes the result outdated.
    const from = this.sources(file.place, borrows);
    const machine = { uri: file.uri, ...(await this.inParts(opened, today)) };
    return { place: file.place, today, machine, borrows, isDescription: isDescription(book), from };
  }

  /**
   * A workbook on disk whose machine cannot be read is read once more, with the files that it borrows from: one of them
   * may have been written since it was missed.
   */
  private async loaded(file: File): Promise<Opened | undefined> {
    const { host, workspace } = this.session;
    const opened = await workspace.load(file.uri);
    if (!opened || isTooLong(opened.book)) return opened;
    await workspace.ready(opened);
    const { book, place } = opened;
    if (book.workbook.borrows.length === 0 || book.last('machine', Infinity)?.entry.kind !== 'unread') return opened;
    for (const path of book.workbook.borrows) workspace.changedOnDisk(host.uriOf({ root: place.root, file: path }));
    return workspace.load(file.uri);
  }

  /** Requests are answered between the parts. */
  private async inParts(opened: Opened, today: string): Promise<MachineSummary> {
    const { host, workspace } = this.session;
    const parts = summaryInParts(opened.book, today);
    for (;;) {
      const { done, value } = parts.next();
      if (done) return value;
      await host.turn();
      await workspace.ready(opened);
    }
  }

  private unreadable({ uri, place }: File, today: string, says: string): Read {
    const machine: ListedMachine = { uri, group: 'unreadable', says };
    return { place, today, machine, borrows: [], isDescription: false, from: this.sources(place, []) };
  }
}

const TOO_LONG = 'too long to be listed: open it';

/** A file that only describes a machine is not listed beside the workbooks that take it over. */
function shown(reads: readonly Read[]): ListedMachine[] {
  const borrowed = reads.flatMap(({ borrows }) => borrows);
  return reads
    .filter(({ place, isDescription: isOnly }) => !isOnly || !borrowed.some((one) => isSamePlace(one, place)))
    .map(({ machine }) => machine);
}
