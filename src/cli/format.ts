/** Formats workbooks as the editor does, or names those that it would change. */
import { formatting, type Change } from '../language/index.ts';
import { harmless } from '../model/index.ts';
import { STANDARD_OUTPUT, type FormatOptions } from './arguments.ts';
import type { Evaluated } from './evaluated.ts';
import type { Files } from './files.ts';
import { findingLine } from './findings.ts';
import type { Exit, Terminal } from './terminal.ts';

export function formatFile(
  file: string,
  { book, findings }: Evaluated,
  { mode }: FormatOptions,
  { out, error }: Terminal,
  files: () => Pick<Files, 'rewrite'>,
): Exit {
  if (!book) {
    error(findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
    return 2;
  }
  const changes = formatting(book, () => true);
  if (mode === 'write' && file === STANDARD_OUTPUT) out(changed(book.text, changes));
  else if (changes.length > 0) {
    if (mode === 'write') {
      const problem = files().rewrite(file, Buffer.from(book.text), Buffer.from(changed(book.text, changes)));
      if (problem !== undefined) {
        error(`alignbook: ${problem}\n`);
        return 2;
      }
    }
    out(`${harmless(file)}\n`);
  }
  return mode === 'check' && changes.length > 0 ? 1 : 0;
}

function changed(text: string, changes: readonly Change[]): string {
  return changes.reduceRight((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}
