/** One workbook read, with the files it takes machines from, and evaluated. */
import { evaluate } from '../alignment/index.ts';
import type { Evaluation } from '../model/index.ts';
import { createReader, settle, type ReadFile, type Tables, type Workbook } from '../workbook/index.ts';
import { folderOf, readText } from './files.ts';
import { placed, unreadable, type PlacedFinding } from './findings.ts';

export interface Evaluated {
  /** Absent: the file could not be read. */
  readonly evaluation?: Evaluation;
  readonly findings: readonly PlacedFinding[];
  readonly workbook?: Workbook;
}

export function evaluated(path: string, tables: Tables): Evaluated {
  const found = readText(path);
  if ('reason' in found) return { findings: [unreadable(found.reason)] };
  const workbook = readWhole(path, found.text, tables);
  const evaluation = evaluate(workbook.entries);
  return { workbook, evaluation, findings: placed(found.text, workbook.split, settle(workbook, evaluation.findings)) };
}

/** Reading says which files it lacks; each is loaded once, whatever becomes of it, so this ends. */
function readWhole(path: string, text: string, tables: Tables): Workbook {
  const reader = createReader(tables);
  const folder = folderOf(path);
  const files = new Map<string, ReadFile>();
  for (;;) {
    const workbook = reader.read(text, { file: folder.file, files });
    const lacking = workbook.lacks.filter((wanted) => !files.has(wanted));
    if (lacking.length === 0) return workbook;
    for (const wanted of lacking) files.set(wanted, folder.load(wanted));
  }
}
