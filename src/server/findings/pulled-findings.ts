/** Pull diagnostics: the client requests them, also for workbooks that are not open. */
import {
  DocumentDiagnosticReportKind,
  type CancellationToken,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Opened } from '../documents/workspace.ts';
import type { Findings } from './findings-type.ts';
import { guarded, type Session } from '../documents/session.ts';
import { BaseFindings } from './base-findings.ts';

interface CachedReport {
  readonly resultId: string;
  readonly items: Diagnostic[];
}

export class PulledFindings extends BaseFindings implements Findings {
  /** Reports for workbooks that are not open. */
  private readonly elsewhere = new Map<string, CachedReport>();
  private results = 0;
  /** Workbooks with an earlier request. */
  private readonly begun = new WeakSet<Opened>();

  constructor(session: Session) {
    super(session);
    const { connection } = session;
    connection.languages.diagnostics.on(
      guarded(session, 'findings', NOTHING, ({ textDocument: { uri } }, token) => this.report(uri, token)),
    );
    connection.languages.diagnostics.onWorkspace(
      guarded(session, 'findings of the workspace', { items: [] }, ({ previousResultIds }) =>
        this.workspace(new Map(previousResultIds.map(({ uri, value }) => [uri, value]))),
      ),
    );
  }

  private async report(uri: string, token: CancellationToken): Promise<DocumentDiagnosticReport> {
    const { workspace } = this.session;
    const opened = workspace.at(uri);
    if (!opened) return NOTHING;
    const early = this.canRefresh() && !this.begun.has(opened) && (await this.early(opened));
    this.begun.add(opened);
    // If that fails, the next request reports it.
    if (early)
      workspace.ready(opened).then(
        () => this.refresh(),
        () => this.refresh(),
      );
    else await workspace.ready(opened);
    if (token.isCancellationRequested) return NOTHING;
    const findings = early ? opened.book.findingsSoFar() : opened.book.findings();
    return { kind: DocumentDiagnosticReportKind.Full, items: this.diagnostics(opened, findings).get(uri) ?? [] };
  }

  private async workspace(before: ReadonlyMap<string, string>): Promise<WorkspaceDiagnosticReport> {
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const gone = new Set(before.keys());
    for (const uri of await this.others()) {
      const report = this.elsewhere.get(uri) ?? (await this.look(uri));
      if (!report) continue;
      gone.delete(uri);
      const { resultId } = report;
      items.push(
        before.get(uri) === resultId
          ? { kind: 'unchanged', uri, version: null, resultId }
          : { kind: 'full', uri, version: null, ...report },
      );
    }
    // The client keeps its diagnostics of a file until it receives others, and has its own of an open one.
    for (const uri of gone)
      if (!this.session.workspace.byUri(uri)) items.push({ kind: 'full', uri, version: null, items: [] });
    return { items };
  }

  private async look(uri: string): Promise<CachedReport | undefined> {
    const items = await this.ofOther(uri);
    if (!items) return undefined;
    const report = { resultId: String(++this.results), items };
    this.elsewhere.set(uri, report);
    return report;
  }

  started(): void {
    // The client requests diagnostics when it is ready.
  }

  private canRefresh(): boolean {
    return this.session.client.workspace?.diagnostics?.refreshSupport === true;
  }

  private refresh(): void {
    if (this.canRefresh()) this.session.connection.languages.diagnostics.refresh();
  }

  protected shown(): void {
    this.refresh();
  }

  closed(): void {
    this.elsewhere.clear();
  }

  changedOnDisk(): void {
    this.elsewhere.clear();
    this.refresh();
  }
}

const NOTHING: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };
