/** Evaluates a whole log: the state of every station, the findings, and the next steps. */
import type { Evaluation, LogEntry } from '../model/index.ts';
import { cellsInWords } from '../words/index.ts';
import { createLog } from './log.ts';

/**
 * @param entries in file order, as the reader of workbooks gives them. Parts of the result are computed when they are
 * read.
 */
export function evaluate(entries: readonly LogEntry[]): Evaluation {
  const log = createLog();
  log.replace(entries);
  return cellsInWords(log.evaluation(), (cell) => `cell ${cell + 1}`);
}
