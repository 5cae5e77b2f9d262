/** Reads one workbook with the files that it takes machines from, and evaluates it. */
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { folderNamed, folderOf, readText } from '../disk/index.ts';
import { createBook, type Book } from '../language/index.ts';
import type { Evaluation, SessionHistory } from '../model/index.ts';
import { sessionHistory } from '../history/index.ts';
import type { ReadFile, Tables, Workbook } from '../workbook/index.ts';
import { placed, unreadable, type PlacedFinding } from './findings.ts';

export interface Evaluated {
  /**
   * Absent if the file could not be read. Computed on first use, like `findings`, `now` and `sessions`: after the visits
   * only the last one is left to do.
   */
  readonly evaluation?: Evaluation;
  readonly findings: readonly PlacedFinding[];
  /** The errors, and the findings of the last visit. */
  readonly now: readonly PlacedFinding[];
  readonly book?: Book;
  /** The visits compared, computed on first use. */
  readonly sessions?: SessionHistory;
  readonly workbook?: Workbook;
  /** Paths of the files that were read; `-` is standard input. */
  readonly inputs: readonly string[];
}

/** Characters from which on a workbook is long. */
const LONG = 200_000;

/**
 * @param isJudged whether the findings of finished visits are needed: they are then computed while reading
 * @param name the path where the text stands, which need not exist
 */
export function evaluated(path: string, tables: Tables, isJudged = true, name?: string): Evaluated {
  const input = readText(path);
  if ('reason' in input) return notRead([unreadable(input.reason)]);
  if (input.text.length > LONG) saveMemory();
  const folder = name === undefined ? folderOf(path) : folderNamed(name);
  const files = new Map<string, ReadFile>();
  const book = createBook(tables, folder.file, files, input.text);
  // Reading reports which files it lacks. Each is loaded once, whether or not that succeeds, so this ends.
  for (;;) {
    if (isJudged) book.advance(() => false);
    else book.fold();
    const { workbook } = book;
    if (workbook.lacks.length === 0)
      return resultOf(book, [path, ...[...files.keys()].map((file) => join(folder.root, file))]);
    for (const file of workbook.lacks) files.set(file, folder.load(file));
    book.reread();
  }
}

/**
 * Halves the memory of a long workbook, for a tenth more time. By default the young generation grows to 32 MB, and the
 * old one to four times what is in use before it is collected. (The first counts on Node 24, the second on Node 20.)
 */
function saveMemory(): void {
  setFlagsFromString('--semi-space-growth-factor=1');
  setFlagsFromString('--heap-growing-percent=50');
}

function notRead(findings: readonly PlacedFinding[]): Evaluated {
  return { findings, now: findings, inputs: [] };
}

function resultOf(book: Book, inputs: readonly string[]): Evaluated {
  const { workbook, text, log } = book;
  let [history, all]: [SessionHistory?, PlacedFinding[]?] = [];
  return {
    book,
    workbook,
    inputs,
    get evaluation() {
      return book.evaluation();
    },
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
