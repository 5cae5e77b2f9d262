/** The interface of one workbook that is being edited. */
import type { Log } from '../../evaluation/index.ts';
import type { Edit, Split } from '../../cells/index.ts';
import type { Evaluation, Finding, Kind, LogEntry, WorkEntry } from '../../model/index.ts';
import type { Known, Silencing, Workbook, ComputedWork } from '../../workbook/index.ts';

/** A workbook that is being edited. */
export interface Book {
  /** Relative to the root, `/` between folders. */
  readonly file: string;
  readonly text: string;
  readonly split: Split;
  /** The cells read so far; all of them once `isRead` is true. */
  readonly workbook: Workbook;
  readonly isRead: boolean;
  /** How many cells have been read. */
  readonly cellsRead: number;
  /** Read and folded to the end. The evaluation and all findings need this. */
  readonly isDone: boolean;
  /** The log of the last complete reading. */
  readonly log: Log;
  /** The last entry of a kind in this cell or above, from the last complete reading, so that callers need not wait. */
  last(kind: Kind, cell: number): LogEntry | undefined;
  /** Computes a work cell with values from the log, by name. */
  work(entry: WorkEntry, cell: number, log: ReadonlyMap<string, Known>): ComputedWork;
  /** Replaces the text. @param edit where it differs, if known */
  change(text: string, edit?: Edit): void;
  /** Reads the text again, because a file that it takes machines from changed. */
  reread(): void;
  /** Reads, folds and judges until `enough` returns true. @returns whether all is up to date */
  advance(enough: () => boolean): boolean;
  /** Reads and folds everything; findings of finished visits are computed on demand. */
  fold(): void;
  /** Whether the advice for a practice machine is left out of evaluations until it is asked for. */
  closesAdvice: boolean;
  /** Whether it is left out now, or after the first `count` entries. */
  isAdviceClosed(count?: number): boolean;
  /** After the last entry, or after the first `count`. */
  evaluation(count?: number): Evaluation;
  /** The text above a cell as a book of its own, read and folded; this book itself if nothing follows. */
  upTo(cell: number): Book;
  /** A book of another text in the place of this one, with the same files. */
  withText(text: string): Book;
  /** Reads another text in the place of this one, with the same files; nothing is folded. */
  readAs(text: string): Workbook;
  /** In the order of the file, without silenced ones. */
  findings(): readonly Finding[];
  /** The findings at the cells of the last visit and below, and errors anywhere. */
  findingsNow(): readonly Finding[];
  /** The `allow` comments, with their reasons and the number of findings that each silences. */
  silencings(): readonly Silencing[];
  /** Findings of the cells read so far, as far as they depend on a single cell. */
  findingsSoFar(): readonly Finding[];
}
