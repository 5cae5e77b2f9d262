/** Findings as the client takes them: asked for where it can ask, sent where it cannot, never both. */
import { DocumentDiagnosticReportKind, type CancellationToken, type Diagnostic, type DocumentDiagnosticReport, type WorkspaceDiagnosticReport, type WorkspaceDocumentDiagnosticReport } from 'vscode-languageserver';
import type { Finding } from '../model/index.ts';
import type { Desk, Opened } from './desk.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { guarded, type Session } from './session.ts';

/** Of a long file the findings of so many cells are shown before the others are known. */
const FEW = 50;
/** Milliseconds after the last key after which a word counts as finished. */
const PAUSE = 1000;

export interface Findings {
  /** The text has changed, or what it borrows has. */
  changed(opened: Opened): void;
  closed(uris: readonly string[]): void;
  /** A file that nobody has open has changed. */
  changedOnDisk(): void;
}

/** A text has changed: its own findings, and those of who borrows from it, are others now. */
export function announce(desk: Desk, findings: Findings, opened: Opened): void {
  for (const one of [...desk.changed(opened), opened]) findings.changed(one);
}

export function offerFindings(session: Session): Findings {
  return session.client.textDocument?.diagnostic ? new Asked(session) : new Sent(session);
}

/** What both ways have in common: a word that is being typed is finished some time. */
abstract class Ways implements Findings {
  protected readonly session: Session;
  private readonly pauses = new WeakMap<Opened, ReturnType<typeof setTimeout>>();
  private readonly told = new WeakMap<readonly Finding[], { readonly typed: Opened['typed']; readonly diagnostics: ReadonlyMap<string, Diagnostic[]> }>();

  constructor(session: Session) {
    this.session = session;
  }

  changed(opened: Opened): void {
    clearTimeout(this.pauses.get(opened));
    if (!opened.typed) return;
    this.pauses.set(opened, setTimeout(() => {
      opened.typed = undefined;
      this.shown(opened);
    }, PAUSE));
  }

  /** By document; worked out once, however many cells a notebook asks for. */
  protected diagnostics(opened: Opened, findings: readonly Finding[]): ReadonlyMap<string, Diagnostic[]> {
    const before = this.told.get(findings);
    if (before && before.typed === opened.typed) return before.diagnostics;
    const diagnostics = diagnosticsOf(this.session, opened, findings);
    this.told.set(findings, { typed: opened.typed, diagnostics });
    return diagnostics;
  }

  /** When the first findings of a long file are known; whether there is more to come. */
  protected async early(opened: Opened): Promise<boolean> {
    await this.session.desk.until(opened, ({ cellsRead }) => cellsRead >= FEW);
    return !opened.book.isRead;
  }

  protected abstract shown(opened: Opened): void;
  abstract closed(uris: readonly string[]): void;
  abstract changedOnDisk(): void;
}

class Sent extends Ways {
  /** How often each has been looked at. */
  private readonly turns = new WeakMap<Opened, number>();

  override changed(opened: Opened): void {
    super.changed(opened);
    this.shown(opened);
  }

  protected shown(opened: Opened): void {
    void guarded(this.session, 'findings', undefined, () => this.send(opened))(undefined);
  }

  private async send(opened: Opened): Promise<void> {
    const { desk } = this.session;
    const turn = this.turns.get(opened) ?? 0;
    this.turns.set(opened, turn + 1);
    if (turn === 0 && (await this.early(opened))) await this.put(opened, opened.book.findingsSoFar());
    await desk.ready(opened);
    // Who came later tells it.
    if (desk.whole(opened.uri) === opened && this.turns.get(opened) === turn + 1) await this.put(opened, opened.book.findings());
  }

  private async put(opened: Opened, findings: readonly Finding[]): Promise<void> {
    const { connection } = this.session;
    const { paper } = opened;
    const diagnostics = this.diagnostics(opened, findings);
    for (const uri of paper.uris) await connection.sendDiagnostics({ uri, version: paper.versionOf(uri) ?? paper.version, diagnostics: diagnostics.get(uri) ?? [] });
  }

  closed(uris: readonly string[]): void {
    for (const uri of uris) void this.session.connection.sendDiagnostics({ uri, diagnostics: [] });
  }

  changedOnDisk(): void {
    for (const opened of this.session.desk.all()) this.shown(opened);
  }
}

interface Told {
  readonly resultId: string;
  readonly items: Diagnostic[];
}

class Asked extends Ways {
  /** Of workbooks that are not open, as they were last looked at. */
  private readonly others = new Map<string, Told>();
  private results = 0;
  /** Asked about before. */
  private readonly begun = new WeakSet<Opened>();

  constructor(session: Session) {
    super(session);
    const { connection } = session;
    connection.languages.diagnostics.on(guarded(session, 'findings', NOTHING, ({ textDocument: { uri } }, token) => this.report(uri, token)));
    connection.languages.diagnostics.onWorkspace(guarded(session, 'findings of the workspace', { items: [] }, ({ previousResultIds }) => this.workspace(new Map(previousResultIds.map(({ uri, value }) => [uri, value])))));
  }

  private async report(uri: string, token: CancellationToken): Promise<DocumentDiagnosticReport> {
    const { desk } = this.session;
    const opened = desk.at(uri);
    if (!opened) return NOTHING;
    const early = this.canRefresh() && !this.begun.has(opened) && (await this.early(opened));
    this.begun.add(opened);
    if (early) void desk.ready(opened).then(() => this.refresh());
    else await desk.ready(opened);
    if (token.isCancellationRequested) return NOTHING;
    const findings = early ? opened.book.findingsSoFar() : opened.book.findings();
    return { kind: DocumentDiagnosticReportKind.Full, items: this.diagnostics(opened, findings).get(uri) ?? [] };
  }

  private async workspace(before: ReadonlyMap<string, string>): Promise<WorkspaceDiagnosticReport> {
    const { host, folders, desk } = this.session;
    const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    for (const uri of new Set(uris)) {
      if (desk.whole(uri)) continue;
      const told = this.others.get(uri) ?? (await this.look(uri));
      if (!told) continue;
      const { resultId } = told;
      items.push(before.get(uri) === resultId ? { kind: 'unchanged', uri, version: null, resultId } : { kind: 'full', uri, version: null, ...told });
    }
    return { items };
  }

  private async look(uri: string): Promise<Told | undefined> {
    const { desk } = this.session;
    const borrowed = await desk.borrow(uri);
    if (!borrowed) return undefined;
    await desk.ready(borrowed);
    const told = { resultId: String(++this.results), items: this.diagnostics(borrowed, borrowed.book.findings()).get(uri) ?? [] };
    this.others.set(uri, told);
    return told;
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
    this.others.clear();
  }

  changedOnDisk(): void {
    this.others.clear();
    this.refresh();
  }
}

const NOTHING: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };
