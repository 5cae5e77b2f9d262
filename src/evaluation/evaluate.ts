/** The whole log evaluated: what every station's marks mean, what was noticed, and what to do next. */
import type { Evaluation, LogEntry } from '../model/index.ts';
import { cellsInWords } from '../words/index.ts';
import { createLog } from './log.ts';

/** @param entries in file order, as the reader of workbooks gives them. What is not asked for is not worked out. */
export function evaluate(entries: readonly LogEntry[]): Evaluation {
  const log = createLog();
  log.replace(entries);
  return cellsInWords(log.evaluation(), (cell) => `cell ${cell + 1}`);
}
