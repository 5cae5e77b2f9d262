/** A finding: a stable code and facts. Message and severity are in `shared/findings.ts`. */
import type { FactName, Facts, FactsOf } from '../../shared/finding-facts.ts';
import { findings, type FindingCode } from '../../shared/findings.ts';
import type { Severity } from '../../shared/wording.ts';
import type { Span } from './span.ts';

export type { FactName, Facts, FactsOf, FindingCode, Severity };

export interface Finding {
  readonly code: FindingCode;
  /** Index of the cell; −1: the file's head or the file itself. */
  readonly cell: number;
  /** Relative to that cell's text (to the file where `cell` is −1). */
  readonly span: Span;
  readonly facts: Facts;
  /** If it differs from that of the code: a mistake that was corrected since is no error. */
  readonly severity?: Severity;
  /** The nearest known name to one that is not known. */
  readonly suggestion?: string;
  /** A change of the cell's text that fixes it. */
  readonly fix?: { readonly span: Span; readonly text: string };
}

/**
 * The page has a heading and an empty line, then the same number of lines for each finding, in the order of the table.
 */
const PAGE = { first: 3, each: 14 };
const codes = Object.keys(findings);

/**
 * The line of `shared/findings.md`, from 1, on which the finding's section begins: editors open a link with `#L3`
 * there.
 */
export function lineOnPage(code: FindingCode): number {
  return PAGE.first + PAGE.each * codes.indexOf(code);
}

/** The severity of this finding, or else of its code. */
export function severity(finding: Finding): Severity {
  return finding.severity ?? findings[finding.code].severity;
}

/** The message: the facts put into the table's sentence, then the suggestion. */
export function message(finding: Finding): string {
  const text = findings[finding.code].message.replace(/\{(\w+)\}/g, (_, name: string) => finding.facts[name] ?? '?');
  return finding.suggestion === undefined ? text : `${text} Did you mean \`${finding.suggestion}\`?`;
}
