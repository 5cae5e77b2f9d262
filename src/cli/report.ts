/** The record of a visit, into a file or onto standard output. */
import { visitsIn } from '../model/index.ts';
import { bookOfVisit, recordOf, toHtml, toMarkdown } from '../record/index.ts';
import type { ReportOptions } from './arguments.ts';
import { deliver } from './deliver.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import type { Files } from './files.ts';
import type { Exit, Terminal } from './terminal.ts';

export function report(
  { file, as, out, paper, visit }: ReportOptions,
  result: Evaluated,
  terminal: Terminal,
  version: string,
  files: Files,
): Exit {
  const { book, inputs } = result;
  const { error } = terminal;
  if (!book) {
    error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
    return 2;
  }
  const own = bookOfVisit(book, visit);
  if (!own) {
    error(
      `alignbook: There is no visit ${visit} in ${file}: ${countInWords(visitsIn(book.workbook.entries).length)}.\n`,
    );
    return 2;
  }
  const identity = files.identityOf(file, book.text, version);
  const blocks = recordOf(own, identity);
  const text = as === 'markdown' ? toMarkdown(blocks) : toHtml(blocks, identity, paper);
  return deliver(
    { made: () => (as === 'pdf' ? files.pdfOf(text) : { content: text }), out, inputs },
    terminal,
    () => files,
  );
}

function countInWords(visits: number): string {
  if (visits === 0) return 'it has none';
  return visits === 1 ? 'it has one' : `it has ${visits}`;
}
