/**
 * One workbook as somebody works on it: its text, what has been read of it and what the log means, kept up to date a
 * slice at a time. It owns every memory: cells by their text, states by their place in the log. All that is shown of a
 * workbook, here and on the command line, is asked of one of these.
 */
import { cellsInWords } from '../../words/index.ts';
import { createLog } from '../../evaluation/index.ts';
import { firstAt, resplit, splitCells, type Edit, type Split } from '../../cells/index.ts';
import {
  severity,
  visitsIn,
  type Evaluation,
  type Finding,
  type Kind,
  type LogEntry,
  type Visit,
  type WorkEntry,
} from '../../model/index.ts';
import {
  createReader,
  settle,
  silencings,
  type Known,
  type Pass,
  type Reader,
  type ReadFile,
  type Silencing,
  type Tables,
  type Workbook,
  type WorkedOut,
} from '../../workbook/index.ts';
import { entriesOf } from './entries-of.ts';
import { machineAt } from './machine-at.ts';
import { markGrowth } from './mark-growth.ts';
import { powerLoss } from './power-loss.ts';
import { workFindings } from './work-results.ts';
import type { Book } from './book-type.ts';

/**
 * @param files what may be borrowed from, by path under the root; who loads into it what is lacking calls `reread`
 * @param reader one that has read cells of this text before reads them no more
 */
export function createBook(
  tables: Tables,
  file: string,
  files: ReadonlyMap<string, ReadFile>,
  text: string,
  reader = createReader(tables),
): Book {
  return new KeptBook(tables, file, files, text, reader);
}

class KeptBook implements Book {
  readonly file: string;
  readonly log = createLog();
  text: string;
  split: Split;
  isRead = false;
  private readonly files: ReadonlyMap<string, ReadFile>;
  private readonly tables: Tables;
  private readonly reader: Reader;
  private pass: Pass;
  private whole: Workbook | undefined;
  private byKind: { readonly of: Workbook; readonly entries: Map<Kind, readonly LogEntry[]> } | undefined;
  private settled: readonly Finding[] | undefined;

  constructor(tables: Tables, file: string, files: ReadonlyMap<string, ReadFile>, text: string, reader: Reader) {
    this.file = file;
    this.files = files;
    this.text = text;
    this.tables = tables;
    this.reader = reader;
    this.split = splitCells(text);
    this.pass = this.begun();
  }

  get workbook(): Workbook {
    return this.whole ?? this.pass.workbook();
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
    this.whole = undefined;
    this.settled = undefined;
    const { file, files } = this;
    return this.reader.begin(this.split, { file, files }, before);
  }

  advance(enough: () => boolean): boolean {
    return this.read(enough) && this.log.advance(enough);
  }

  fold(): void {
    this.read(() => false);
    this.log.fold();
  }

  private read(enough: () => boolean): boolean {
    if (this.isRead) return true;
    if (!this.pass.advance(enough)) return false;
    this.isRead = true;
    this.whole = this.pass.workbook();
    this.byKind = { of: this.whole, entries: new Map() };
    this.log.replace(this.whole.entries);
    return true;
  }

  get cellsRead(): number {
    return this.pass.count;
  }

  get isDone(): boolean {
    return this.isRead && this.log.isDone;
  }

  last(kind: Kind, cell: number): LogEntry | undefined {
    const { of, entries } = this.byKind ?? { of: this.workbook, entries: new Map<Kind, readonly LogEntry[]>() };
    let found = entries.get(kind);
    if (!found)
      entries.set(
        kind,
        (found = of.entries.filter(
          ({ entry }) => entry.kind === kind || (entry.kind === 'unread' && entry.of === kind),
        )),
      );
    return found[firstAt(found, cell + 1) - 1];
  }

  work(entry: WorkEntry, cell: number, log: ReadonlyMap<string, Known>): WorkedOut {
    return this.reader.work(entry, machineAt(this, cell), log);
  }

  evaluation(count?: number): Evaluation {
    return cellsInWords(this.log.evaluation(count), (cell) => `line ${this.lineOf(cell)}`);
  }

  /** From 1: where the kind of a cell stands. */
  private lineOf(cell: number): number {
    const head = entriesOf(this, cell)[0]?.entry;
    const start = (this.split.cells[cell]?.start ?? 0) + (head?.spans[head.kind]?.start ?? 0);
    return this.text.slice(0, start).split('\n').length;
  }

  upTo(cell: number): Book {
    const next = this.split.cells[cell];
    if (!next) return this;
    const above = createBook(this.tables, this.file, this.files, this.text.slice(0, next.start), this.reader);
    above.advance(() => false);
    return above;
  }

  findings(): readonly Finding[] {
    return (this.settled ??= settle(this.workbook, this.foundLater()));
  }

  findingsNow(): readonly Finding[] {
    const { entries } = this.workbook;
    const from = firstOfLast(visitsIn(entries));
    const first = from === 0 ? -1 : entries[from]!.cell;
    return settle(this.workbook, this.foundBeside(this.log.findings(from))).filter(
      (finding) => finding.cell >= first || severity(finding) === 'error',
    );
  }

  silencings(): readonly Silencing[] {
    return silencings(this.workbook, this.foundLater());
  }

  /** By what the log means, by light and power, and by arithmetic with all that. */
  private foundLater(): Finding[] {
    return this.foundBeside(this.evaluation().findings);
  }

  private foundBeside(found: readonly Finding[]): Finding[] {
    const { entries } = this.workbook;
    return [...found, ...markGrowth(entries, this.log), ...powerLoss(entries), ...workFindings(this)];
  }

  findingsSoFar(): readonly Finding[] {
    return settle(this.workbook, []).filter(({ code }) => code !== 'allow.unused');
  }
}

/** Index of its first entry; what stands above the first visit belongs to it. */
function firstOfLast(visits: readonly Visit[]): number {
  const last = visits.at(-1);
  return last && last.number > 1 ? last.from : 0;
}
