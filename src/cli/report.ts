/** The record of a visit, into a file or onto standard output. */
import { visitsIn } from '../model/index.ts';
import { bookOfVisit, reportOf, toHtml, toMarkdown } from '../report/index.ts';
import type { ReportAsked } from './arguments.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import type { Files } from './files.ts';
import type { Exit, Terminal } from './run.ts';

export function report({ file, as, out, paper, visit }: ReportAsked, result: Evaluated, { out: print, error }: Terminal, version: string, { identityOf, writePdf, writeText }: Files): Exit {
  const { book } = result;
  if (!book) {
    error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
    return 2;
  }
  const own = bookOfVisit(book, visit);
  if (!own) {
    error(`alignbook: There is no visit ${visit} in ${file}: ${countInWords(visitsIn(book.workbook.entries).length)}.\n`);
    return 2;
  }
  const identity = identityOf(file, book.text, version);
  const blocks = reportOf(own, identity);
  const text = as === 'markdown' ? toMarkdown(blocks) : toHtml(blocks, identity, paper);
  if (out === undefined) {
    print(text);
    return 0;
  }
  const problem = as === 'pdf' ? writePdf(out, text) : writeText(out, text);
  if (problem === undefined) return 0;
  error(`alignbook: ${problem}\n`);
  return 2;
}

function countInWords(visits: number): string {
  if (visits === 0) return 'it has none';
  return visits === 1 ? 'it has one' : `it has ${visits}`;
}
