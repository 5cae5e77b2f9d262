/** Findings as workflow commands of a forge: each is shown beside its line in a pull request. */
import { harmless } from '../model/index.ts';
import type { PlacedFinding } from './findings.ts';

const COMMAND = { error: 'error', warning: 'warning', information: 'notice', hint: 'notice' } as const;

/** `::error file=F,line=L,col=C,endLine=L,endColumn=C,title=CODE::MESSAGE`, from 1. */
export function githubLine(file: string, { code, severity, message, range: { start, end } }: PlacedFinding): string {
  const columns =
    start.line === end.line
      ? `,col=${start.character + 1},endColumn=${Math.max(start.character, end.character) + 1}`
      : '';
  const place = `file=${property(file)},line=${start.line + 1},endLine=${end.line + 1}${columns}`;
  return `::${COMMAND[severity]} ${place},title=${property(code)}::${data(message)}`;
}

function data(text: string): string {
  return harmless(text).replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
