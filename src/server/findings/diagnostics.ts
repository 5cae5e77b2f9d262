/** Findings in the protocol's words, each in the document that it lies in. */
import {
  DiagnosticSeverity,
  DiagnosticTag,
  type Diagnostic,
  type DiagnosticRelatedInformation,
  type Location,
} from 'vscode-languageserver';
import { calm, fadedOf, relatedOf, type Faded, type Related } from '../../language/index.ts';
import { lineOnPage, message, severity, type Finding, type Span } from '../../model/index.ts';
import type { Severity } from '../../../shared/findings.ts';
import type { Opened } from '../documents/desk.ts';
import type { Session } from '../documents/session.ts';

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};
/** What does nothing is shown faded. */
const UNNECESSARY: ReadonlySet<string> = new Set(['allow.unused', 'cells.empty']);

/** By the document's address; what is only half typed is left out, what no longer holds is faded. */
export function diagnosticsOf(
  session: Session,
  opened: Opened,
  findings: readonly Finding[],
): ReadonlyMap<string, Diagnostic[]> {
  const found = new Map<string, Diagnostic[]>();
  const put = (cell: number, span: Span, diagnostic: Omit<Diagnostic, 'range'>) => {
    const { uri, range } = placeOf(opened, cell, span);
    const there = found.get(uri);
    if (there) there.push({ range, ...diagnostic });
    else found.set(uri, [{ range, ...diagnostic }]);
  };
  for (const finding of calm(opened.book, findings, opened.typed))
    put(finding.cell, finding.span, diagnostic(session, opened, finding));
  if (opened.book.isDone)
    for (const faded of fadedOf(opened.book)) put(faded.cell, faded.span, paler(session, opened, faded));
  return found;
}

function placeOf({ book, paper }: Opened, cell: number, span: Span): Location {
  const from = book.split.cells[cell]?.start ?? 0;
  return paper.locate(from + span.start, from + span.end);
}

function diagnostic(session: Session, opened: Opened, finding: Finding): Omit<Diagnostic, 'range'> {
  const page = session.host.page();
  return {
    severity: SEVERITY[severity(finding)],
    code: finding.code,
    ...(page !== undefined && { codeDescription: { href: `${page}#L${lineOnPage(finding.code)}` } }),
    source: 'alignbook',
    message: message(finding),
    ...(UNNECESSARY.has(finding.code) && { tags: [DiagnosticTag.Unnecessary] }),
    ...relatedTo(session, opened, relatedOf(opened.book, finding)),
  };
}

function paler(session: Session, opened: Opened, { message: said, since }: Faded): Omit<Diagnostic, 'range'> {
  return {
    severity: DiagnosticSeverity.Hint,
    source: 'alignbook',
    message: said,
    tags: [DiagnosticTag.Unnecessary],
    ...relatedTo(session, opened, since),
  };
}

function relatedTo(
  { client }: Session,
  opened: Opened,
  related: readonly Related[],
): Pick<Diagnostic, 'relatedInformation'> {
  if (!client.textDocument?.publishDiagnostics?.relatedInformation || related.length === 0) return {};
  return {
    relatedInformation: related.map(
      ({ cell, span, message: said }): DiagnosticRelatedInformation => ({
        location: placeOf(opened, cell, span),
        message: said,
      }),
    ),
  };
}
