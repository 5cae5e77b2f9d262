/** One workbook read, with the files it takes machines from, and evaluated. */
import { join } from 'node:path';
import { folderOf, readText } from '../disk/index.ts';
import { createBook, type Book } from '../language/index.ts';
import type { Evaluation, SessionHistory } from '../model/index.ts';
import { sessionHistory } from '../history/index.ts';
import type { ReadFile, Tables, Workbook } from '../workbook/index.ts';
import { placed, unreadable, type PlacedFinding } from './findings.ts';

export interface Evaluated {
  /** Absent: the file could not be read. */
  readonly evaluation?: Evaluation;
  /** Placed when somebody first asks, as all that follows. */
  readonly findings: readonly PlacedFinding[];
  /** Of the last visit and below, and errors: for who works on it now. */
  readonly now: readonly PlacedFinding[];
  readonly book?: Book;
  /** Its visits, compared when somebody first asks. */
  readonly sessions?: SessionHistory;
  readonly workbook?: Workbook;
  /** Paths of the files that were read; `-` is standard input. */
  readonly inputs: readonly string[];
}

/** @param isJudged whether somebody will ask what was found of visits that have ended: they are then judged on the way */
export function evaluated(path: string, tables: Tables, isJudged = true): Evaluated {
  const found = readText(path);
  if ('reason' in found) return notRead([unreadable(found.reason)]);
  const folder = folderOf(path);
  const files = new Map<string, ReadFile>();
  const book = createBook(tables, folder.file, files, found.text);
  // Reading says which files it lacks; each is loaded once, whatever becomes of it, so this ends.
  for (;;) {
    if (isJudged) book.advance(() => false);
    else book.fold();
    const { workbook } = book;
    if (workbook.lacks.length === 0)
      return told(book, [path, ...[...files.keys()].map((wanted) => join(folder.root, wanted))]);
    for (const wanted of workbook.lacks) files.set(wanted, folder.load(wanted));
    book.reread();
  }
}

function notRead(findings: readonly PlacedFinding[]): Evaluated {
  return { findings, now: findings, inputs: [] };
}

function told(book: Book, inputs: readonly string[]): Evaluated {
  const { workbook, text, log } = book;
  let [history, all]: [SessionHistory?, PlacedFinding[]?] = [];
  return {
    book,
    workbook,
    inputs,
    evaluation: book.evaluation(),
    get findings() {
      return (all ??= placed(text, workbook.split, book.findings()));
    },
    get now() {
      return placed(text, workbook.split, book.findingsNow());
    },
    get sessions() {
      return (history ??= sessionHistory(workbook.entries, log));
    },
  };
}
