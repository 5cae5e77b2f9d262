/** Findings as LSP diagnostics, each in its document. */
import {
  DiagnosticSeverity,
  DiagnosticTag,
  type Diagnostic,
  type DiagnosticRelatedInformation,
  type Location,
} from 'vscode-languageserver';
import {
  withoutHalfTyped,
  staleMarksOf,
  relatedPlaces,
  type StaleMarks,
  type RelatedPlace,
} from '../../language/index.ts';
import { lineOnPage, message, severity, type Finding, type Span } from '../../model/index.ts';
import type { Severity } from '../../../shared/wording.ts';
import type { Opened } from '../documents/workspace.ts';
import type { Session } from '../documents/session.ts';

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};
/** Shown faded: the code has no effect. */
const UNNECESSARY: ReadonlySet<string> = new Set(['allow.unused', 'cells.empty']);

/** Diagnostics by URI. Findings about a half-typed word are left out; stale marks are faded. */
export function diagnosticsOf(
  session: Session,
  opened: Opened,
  findings: readonly Finding[],
): ReadonlyMap<string, Diagnostic[]> {
  const byUri = new Map<string, Diagnostic[]>();
  const put = (cell: number, span: Span, diagnostic: Omit<Diagnostic, 'range'>) => {
    const { uri, range } = placeOf(opened, cell, span);
    const there = byUri.get(uri);
    if (there) there.push({ range, ...diagnostic });
    else byUri.set(uri, [{ range, ...diagnostic }]);
  };
  for (const finding of withoutHalfTyped(opened.book, findings, opened.typed))
    put(finding.cell, finding.span, diagnostic(session, opened, finding));
  if (opened.book.isDone)
    for (const marks of staleMarksOf(opened.book)) put(marks.cell, marks.span, paler(session, opened, marks));
  return byUri;
}

function placeOf({ book, document }: Opened, cell: number, span: Span): Location {
  const from = book.split.cells[cell]?.start ?? 0;
  return document.locate(from + span.start, from + span.end);
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
    ...relatedInformation(session, opened, relatedPlaces(opened.book, finding)),
  };
}

function paler(session: Session, opened: Opened, { message: text, since }: StaleMarks): Omit<Diagnostic, 'range'> {
  return {
    severity: DiagnosticSeverity.Hint,
    source: 'alignbook',
    message: text,
    tags: [DiagnosticTag.Unnecessary],
    ...relatedInformation(session, opened, since),
  };
}

function relatedInformation(
  { client }: Session,
  opened: Opened,
  places: readonly RelatedPlace[],
): Pick<Diagnostic, 'relatedInformation'> {
  if (!client.textDocument?.publishDiagnostics?.relatedInformation || places.length === 0) return {};
  return {
    relatedInformation: places.map(
      ({ cell, span, message: text }): DiagnosticRelatedInformation => ({
        location: placeOf(opened, cell, span),
        message: text,
      }),
    ),
  };
}
