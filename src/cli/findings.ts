/** Findings with line and column, and as lines of text. */
import { lineIndex, type Split } from '../cells/index.ts';
import { message, severity, type Finding, type Severity } from '../model/index.ts';
import { harmless } from '../model/index.ts';

interface Position {
  readonly line: number;
  readonly character: number;
}

/** As in LSP: 0-based, UTF-16. */
export interface PlacedFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly range: { readonly start: Position; readonly end: Position };
}

export function placed(text: string, split: Split, findings: readonly Finding[]): PlacedFinding[] {
  const index = lineIndex(text);
  return findings.map((finding) => {
    const from = finding.cell < 0 ? 0 : split.cells[finding.cell]!.start;
    const range = {
      start: index.positionAt(from + finding.span.start),
      end: index.positionAt(from + finding.span.end),
    };
    return { code: finding.code, severity: severity(finding), message: message(finding), range };
  });
}

/** A finding at the beginning of a file that could not be read. */
export function unreadable(reason: string): PlacedFinding {
  const nowhere = { line: 0, character: 0 };
  const finding: Finding = { code: 'file.unreadable', cell: -1, span: { start: 0, end: 0 }, facts: { reason } };
  return {
    code: finding.code,
    severity: severity(finding),
    message: message(finding),
    range: { start: nowhere, end: nowhere },
  };
}

/** `FILE:LINE:COL severity code message`, 1-based, on one line even if the message quotes several. */
export function findingLine(file: string, { code, severity: grave, message: text, range }: PlacedFinding): string {
  return harmless(`${file}:${range.start.line + 1}:${range.start.character + 1} ${grave} ${code} ${text}`);
}
