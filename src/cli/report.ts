/** The record of the last visit, into a file or onto standard output. */
import { reportOf, toHtml, toMarkdown } from '../report/index.ts';
import type { ReportAsked } from './arguments.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import type { Files } from './files.ts';
import type { Exit, Terminal } from './run.ts';

export function report({ file, as, out, paper }: ReportAsked, { book, findings }: Evaluated, { out: print, error }: Terminal, version: string, { identityOf, writePdf, writeText }: Files): Exit {
  if (!book) {
    error(findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
    return 2;
  }
  const identity = identityOf(file, book.text, version);
  const blocks = reportOf(book, identity);
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
