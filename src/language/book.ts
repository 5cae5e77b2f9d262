/**
 * One workbook as somebody works on it: its text, what has been read of it and what the log means, kept up to date a
 * slice at a time. It owns every memory: cells by their text, states by their place in the log. All that is shown of a
 * workbook, here and on the command line, is asked of one of these.
 */
import { createLog, type Log } from '../alignment/index.ts';
import { resplit, splitCells, type Edit, type Split } from '../cells/index.ts';
import type { Evaluation, Finding } from '../model/index.ts';
import { createReader, settle, type Pass, type ReadFile, type Tables, type Workbook } from '../workbook/index.ts';

export interface Book {
  /** Relative to the root, `/` between folders. */
  readonly file: string;
  readonly text: string;
  readonly split: Split;
  /** As far as it has been read: while `isRead` is false, the cells above. */
  readonly workbook: Workbook;
  readonly isRead: boolean;
  /** As it stood when the file was last read whole. */
  readonly log: Log;
  /** The text as it is now; `edit` says where it differs, when that is known. */
  change(text: string, edit?: Edit): void;
  /** Reads again, because a file that it borrows from has changed. */
  reread(): void;
  /** Reads and folds on until `enough`; whether everything is up to date. Until then nothing below is asked for. */
  advance(enough: () => boolean): boolean;
  evaluation(): Evaluation;
  /** Silenced ones left out, in the order of the file. */
  findings(): readonly Finding[];
  /** The same of the cells that have been read, as far as a cell alone tells. */
  findingsSoFar(): readonly Finding[];
}

/** @param files what may be borrowed from, by path under the root; who loads into it what is lacking calls `reread` */
export function createBook(tables: Tables, file: string, files: ReadonlyMap<string, ReadFile>, text: string): Book {
  return new KeptBook(tables, file, files, text);
}

class KeptBook implements Book {
  readonly file: string;
  readonly log = createLog();
  text: string;
  split: Split;
  isRead = false;
  private readonly files: ReadonlyMap<string, ReadFile>;
  private readonly reader;
  private pass: Pass;
  private last: Workbook | undefined;
  private settled: readonly Finding[] | undefined;

  constructor(tables: Tables, file: string, files: ReadonlyMap<string, ReadFile>, text: string) {
    this.file = file;
    this.files = files;
    this.text = text;
    this.reader = createReader(tables);
    this.split = splitCells(text);
    this.pass = this.begun();
  }

  get workbook(): Workbook {
    return this.last ?? this.pass.workbook();
  }

  change(text: string, edit?: Edit): void {
    this.split = edit === undefined ? splitCells(text) : resplit(this.split, text, edit);
    this.text = text;
    this.pass = this.begun(this.pass);
  }

  reread(): void {
    this.pass = this.begun();
  }

  private begun(before?: Pass): Pass {
    this.isRead = false;
    this.last = undefined;
    this.settled = undefined;
    const { file, files } = this;
    return this.reader.begin(this.split, { file, files }, before);
  }

  advance(enough: () => boolean): boolean {
    if (!this.isRead) {
      if (!this.pass.advance(enough)) return false;
      this.isRead = true;
      this.last = this.pass.workbook();
      this.log.replace(this.last.entries);
    }
    return this.log.advance(enough);
  }

  evaluation(): Evaluation {
    return this.log.evaluation();
  }

  findings(): readonly Finding[] {
    return (this.settled ??= settle(this.workbook, this.evaluation().findings));
  }

  findingsSoFar(): readonly Finding[] {
    return settle(this.workbook, []).filter(({ code }) => code !== 'allow.unused');
  }
}
