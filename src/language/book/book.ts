/**
 * One workbook that is being edited: its text, the entries read from it and the log folded from them, updated in
 * slices. It owns all caches: cells by their text, states by their index in the log. The editor and the command line
 * both use it.
 */
import { cellsInWords } from '../../words/index.ts';
import { createLog, inConflict } from '../../evaluation/index.ts';
import { firstAt, resplit, splitCells, type Edit, type Split } from '../../cells/index.ts';
import {
  pathTo,
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
  visibleFindings,
  silencings,
  type Known,
  type Pass,
  type Reader,
  type ReadFile,
  type Silencing,
  type Tables,
  type Workbook,
  type ComputedWork,
} from '../../workbook/index.ts';
import { entriesOf } from './entries-of.ts';
import { machineAt } from './machine-at.ts';
import { markGrowth } from './mark-growth.ts';
import { powerLoss } from './power-loss.ts';
import { workFindings } from './work-results.ts';
import { isAdviceClosed, withoutAdvice } from './closed-advice.ts';
import type { Book } from './book-type.ts';

/**
 * @param files files that machines may be taken from, by path under the root; the caller loads missing ones and then
 * calls `reread`
 * @param reader one that has read cells of this text before does not read them again
 */
export function createBook(
  tables: Tables,
  file: string,
  files: ReadonlyMap<string, ReadFile>,
  text: string,
  reader = createReader(tables),
): Book {
  return new IncrementalBook(tables, file, files, text, reader);
}

class IncrementalBook implements Book {
  readonly file: string;
  readonly log = createLog();
  text: string;
  split: Split;
  isRead = false;
  closesAdvice = false;
  private readonly files: ReadonlyMap<string, ReadFile>;
  private readonly tables: Tables;
  private readonly reader: Reader;
  private pass: Pass;
  private complete: Workbook | undefined;
  private byKind: { readonly of: Workbook; readonly entries: Map<Kind, readonly LogEntry[]> } | undefined;
  private cachedFindings: readonly Finding[] | undefined;

  constructor(tables: Tables, file: string, files: ReadonlyMap<string, ReadFile>, text: string, reader: Reader) {
    this.file = file;
    this.files = files;
    this.text = text;
    this.tables = tables;
    this.reader = reader;
    this.split = splitCells(text);
    this.pass = this.startPass();
  }

  get workbook(): Workbook {
    return this.complete ?? this.pass.workbook();
  }

  change(text: string, edit?: Edit): void {
    this.split = edit === undefined ? splitCells(text) : resplit(this.split, text, edit);
    this.text = text;
    this.pass = this.startPass(this.pass);
  }

  reread(): void {
    this.pass = this.startPass();
  }

  private startPass(before?: Pass): Pass {
    this.isRead = false;
    this.complete = undefined;
    this.cachedFindings = undefined;
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
    this.complete = this.pass.workbook();
    this.byKind = { of: this.complete, entries: new Map() };
    this.log.replace(this.complete.entries);
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
    let ofKind = entries.get(kind);
    if (!ofKind)
      entries.set(
        kind,
        (ofKind = of.entries.filter(
          ({ entry }) => entry.kind === kind || (entry.kind === 'unread' && entry.of === kind),
        )),
      );
    return ofKind[firstAt(ofKind, cell + 1) - 1];
  }

  work(entry: WorkEntry, cell: number, log: ReadonlyMap<string, Known>): ComputedWork {
    return this.reader.work(entry, machineAt(this, cell), log);
  }

  evaluation(count?: number): Evaluation {
    const evaluation = cellsInWords(this.log.evaluation(count), (cell) => `line ${this.lineOf(cell)}`);
    const isInConflict = this.split.problems.some(({ code }) => code === 'cells.conflict');
    if (isInConflict) return inConflict(evaluation);
    return this.isAdviceClosed(count) ? withoutAdvice(evaluation) : evaluation;
  }

  isAdviceClosed(count?: number): boolean {
    return this.closesAdvice && isAdviceClosed(this.workbook.entries.slice(0, count));
  }

  /** The line, from 1, of the cell's kind. */
  private lineOf(cell: number): number {
    const head = entriesOf(this, cell)[0]?.entry;
    const start = (this.split.cells[cell]?.start ?? 0) + (head?.spans[pathTo(head.kind)]?.start ?? 0);
    return this.text.slice(0, start).split('\n').length;
  }

  upTo(cell: number): Book {
    const next = this.split.cells[cell];
    if (!next) return this;
    return this.withText(this.text.slice(0, next.start));
  }

  withText(text: string): Book {
    const other = createBook(this.tables, this.file, this.files, text, this.reader);
    other.closesAdvice = this.closesAdvice;
    other.advance(() => false);
    return other;
  }

  readAs(text: string): Workbook {
    const { file, files } = this;
    return this.reader.read(text, { file, files });
  }

  findings(): readonly Finding[] {
    return (this.cachedFindings ??= visibleFindings(this.workbook, this.laterFindings()));
  }

  findingsNow(): readonly Finding[] {
    const { entries } = this.workbook;
    const from = firstOfLast(visitsIn(entries));
    const first = from === 0 ? -1 : entries[from]!.cell;
    return visibleFindings(this.workbook, this.withBookFindings(this.log.findings(from))).filter(
      (finding) => finding.cell >= first || severity(finding) === 'error',
    );
  }

  silencings(): readonly Silencing[] {
    return silencings(this.workbook, this.laterFindings());
  }

  /** Findings that need the whole log: from evaluation, light, power and arithmetic. */
  private laterFindings(): Finding[] {
    return this.withBookFindings(this.evaluation().findings);
  }

  private withBookFindings(logFindings: readonly Finding[]): Finding[] {
    const { entries } = this.workbook;
    return [...logFindings, ...markGrowth(entries, this.log), ...powerLoss(entries), ...workFindings(this)];
  }

  findingsSoFar(): readonly Finding[] {
    return visibleFindings(this.workbook, []).filter(({ code }) => code !== 'allow.unused');
  }
}

/** Index of the first entry of the last visit; entries above the first visit belong to it. */
function firstOfLast(visits: readonly Visit[]): number {
  const last = visits.at(-1);
  return last && last.number > 1 ? last.from : 0;
}
