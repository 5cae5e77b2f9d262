/** One workbook as somebody works on it, as those who show it ask for it. */
import type { Log } from '../../evaluation/index.ts';
import type { Edit, Split } from '../../cells/index.ts';
import type { Evaluation, Finding, Kind, LogEntry, WorkEntry } from '../../model/index.ts';
import type { Known, Silencing, Workbook, WorkedOut } from '../../workbook/index.ts';

export interface Book {
  /** Relative to the root, `/` between folders. */
  readonly file: string;
  readonly text: string;
  readonly split: Split;
  /** As far as it has been read: while `isRead` is false, the cells above. */
  readonly workbook: Workbook;
  readonly isRead: boolean;
  /** How many cells have been read. */
  readonly cellsRead: number;
  /** Read and folded to the end: only then the evaluation and all findings are asked for. */
  readonly isDone: boolean;
  /** As it stood when the file was last read whole. */
  readonly log: Log;
  /** The last entry of a kind in this cell or above, by the last reading that was whole: nobody waits for the next. */
  last(kind: Kind, cell: number): LogEntry | undefined;
  /** The lines of a work cell with what the log says, by name. */
  work(entry: WorkEntry, cell: number, log: ReadonlyMap<string, Known>): WorkedOut;
  /** The text as it is now; `edit` says where it differs, when that is known. */
  change(text: string, edit?: Edit): void;
  /** Reads again, because a file that it borrows from has changed. */
  reread(): void;
  /** Reads, folds and judges on until `enough`; whether everything is up to date. */
  advance(enough: () => boolean): boolean;
  /** Reads and folds all of it: what was found of visits that have ended is judged when somebody asks for it. */
  fold(): void;
  /** After the last entry, or after the first `count`. */
  evaluation(count?: number): Evaluation;
  /** What stands above a cell, as a book of its own, read and folded: the same one where nothing stands below. */
  upTo(cell: number): Book;
  /** Silenced ones left out, in the order of the file. */
  findings(): readonly Finding[];
  /** The same for who works on it now: at the cells of the last visit and below, and errors anywhere. */
  findingsNow(): readonly Finding[];
  /** What is not to be said, why, and how much that kept silent. */
  silencings(): readonly Silencing[];
  /** The same of the cells that have been read, as far as a cell alone tells. */
  findingsSoFar(): readonly Finding[];
}
