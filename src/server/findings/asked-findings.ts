/** Findings that the client asks for, also those of workbooks that nobody has open. */
import {
  DocumentDiagnosticReportKind,
  type CancellationToken,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Opened } from '../documents/desk.ts';
import type { Findings } from './findings-type.ts';
import { guarded, type Session } from '../documents/session.ts';
import { ToldFindings } from './told-findings.ts';

interface Told {
  readonly resultId: string;
  readonly items: Diagnostic[];
}

export class AskedFindings extends ToldFindings implements Findings {
  /** Of workbooks that are not open, as they were last looked at. */
  private readonly elsewhere = new Map<string, Told>();
  private results = 0;
  /** Asked about before. */
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
    const { desk } = this.session;
    const opened = desk.at(uri);
    if (!opened) return NOTHING;
    const early = this.canRefresh() && !this.begun.has(opened) && (await this.early(opened));
    this.begun.add(opened);
    // What goes wrong meanwhile is told to who asks again.
    if (early)
      desk.ready(opened).then(
        () => this.refresh(),
        () => this.refresh(),
      );
    else await desk.ready(opened);
    if (token.isCancellationRequested) return NOTHING;
    const findings = early ? opened.book.findingsSoFar() : opened.book.findings();
    return { kind: DocumentDiagnosticReportKind.Full, items: this.diagnostics(opened, findings).get(uri) ?? [] };
  }

  private async workspace(before: ReadonlyMap<string, string>): Promise<WorkspaceDiagnosticReport> {
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    for (const uri of await this.others()) {
      const told = this.elsewhere.get(uri) ?? (await this.look(uri));
      if (!told) continue;
      const { resultId } = told;
      items.push(
        before.get(uri) === resultId
          ? { kind: 'unchanged', uri, version: null, resultId }
          : { kind: 'full', uri, version: null, ...told },
      );
    }
    return { items };
  }

  private async look(uri: string): Promise<Told | undefined> {
    const items = await this.ofOther(uri);
    if (!items) return undefined;
    const told = { resultId: String(++this.results), items };
    this.elsewhere.set(uri, told);
    return told;
  }

  started(): void {
    // It asks when it is ready.
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
