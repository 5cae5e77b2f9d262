/**
 * Pull diagnostics: the client requests them, also for workbooks that are not open. Those of a notebook's cells are
 * pushed: an editor pulls for the documents that have a tab, and the cells have none.
 */
import {
  DocumentDiagnosticReportKind,
  type CancellationToken,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { isNotebook, type Opened } from '../documents/workspace.ts';
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
  /** URIs of cells with pushed diagnostics. */
  private readonly pushed = new Set<string>();
  /** URIs of closed documents → in how many reports they are still to be cleared. */
  private readonly cleared = new Map<string, number>();
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
    if (!opened || isNotebook(opened)) return NOTHING;
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
    for (const uri of gone) if (!this.session.workspace.byUri(uri)) items.push(nothingAt(uri));
    return { items: [...items, ...this.withdrawn().map(nothingAt)] };
  }

  /**
   * URIs whose diagnostics the client may still show, although it pulls them no more: those of files that are open as a
   * notebook, and those of documents that were just closed and are in no folder, such as a new workbook before its first
   * save. The client drops a report while it counts the document as open, so a closed one is reported again.
   */
  private withdrawn(): string[] {
    const { workspace } = this.session;
    const closed = [...this.cleared.keys()].filter((uri) => !workspace.byUri(uri) && !this.elsewhere.has(uri));
    for (const [uri, left] of this.cleared)
      if (left > 1) this.cleared.set(uri, left - 1);
      else this.cleared.delete(uri);
    return [
      ...workspace
        .all()
        .filter(isNotebook)
        .map(({ uri }) => uri),
      ...closed,
    ];
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

  override changed(opened: Opened): void {
    super.changed(opened);
    if (isNotebook(opened)) this.shown(opened);
  }

  private canRefresh(): boolean {
    return this.session.client.workspace?.diagnostics?.refreshSupport === true;
  }

  private refresh(): void {
    if (this.canRefresh()) this.session.connection.languages.diagnostics.refresh();
  }

  protected shown(opened: Opened): void {
    if (!isNotebook(opened)) return this.refresh();
    for (const uri of opened.document.uris) this.pushed.add(uri);
    this.push(opened);
  }

  closed(uris: readonly string[]): void {
    for (const uri of uris)
      if (this.pushed.delete(uri)) void this.session.connection.sendDiagnostics({ uri, diagnostics: [] });
      else this.cleared.set(uri, CLEARINGS);
    this.elsewhere.clear();
    // The file may be open in another view, whose findings it gives from here on.
    this.refresh();
  }

  changedOnDisk(): void {
    this.elsewhere.clear();
    for (const opened of this.session.workspace.all()) if (isNotebook(opened)) this.shown(opened);
    this.refresh();
  }
}

/** Reports of the workspace: the editor asks for one every two seconds, and has closed a document long before the third. */
const CLEARINGS = 3;
const NOTHING: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };

function nothingAt(uri: string): WorkspaceDocumentDiagnosticReport {
  return { kind: 'full', uri, version: null, items: [] };
}
