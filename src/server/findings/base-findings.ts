/** What pull and push diagnostics have in common: the pause after a key press, and pushing those of one workbook. */
import type { Diagnostic } from 'vscode-languageserver';
import type { Finding } from '../../model/index.ts';
import type { Opened } from '../documents/workspace.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { guarded, type Session } from '../documents/session.ts';

/** Findings of the first cells of a long file are shown before the others are read. */
const FEW = 50;
/** Milliseconds after the last key press after which a word counts as finished. */
const PAUSE = 1000;

/** A word that is being typed is finished after a pause; then its findings are shown. */
export abstract class BaseFindings {
  protected readonly session: Session;
  private readonly pauses = new WeakMap<Opened, ReturnType<typeof setTimeout>>();
  /** How often diagnostics of each workbook were started. */
  private readonly turns = new WeakMap<Opened, number>();
  private readonly cached = new WeakMap<
    readonly Finding[],
    { readonly typed: Opened['typed']; readonly diagnostics: ReadonlyMap<string, Diagnostic[]> }
  >();

  constructor(session: Session) {
    this.session = session;
  }

  changed(opened: Opened): void {
    clearTimeout(this.pauses.get(opened));
    if (!opened.typed) return;
    this.pauses.set(
      opened,
      setTimeout(() => {
        opened.typed = undefined;
        this.shown(opened);
      }, PAUSE),
    );
  }

  /** Pushes the diagnostics of each of its documents, those of the first cells of a long file before the others. */
  protected push(opened: Opened): void {
    void guarded(this.session, 'findings', undefined, () => this.send(opened))(undefined);
  }

  private async send(opened: Opened): Promise<void> {
    const { workspace } = this.session;
    const turn = this.turns.get(opened) ?? 0;
    this.turns.set(opened, turn + 1);
    if (turn === 0 && (await this.early(opened))) await this.put(opened, opened.book.findingsSoFar());
    await workspace.ready(opened);
    // A later run sends the diagnostics.
    if (workspace.byUri(opened.uri) === opened && this.turns.get(opened) === turn + 1)
      await this.put(opened, opened.book.findings());
  }

  private async put(opened: Opened, findings: readonly Finding[]): Promise<void> {
    const { connection } = this.session;
    const { document } = opened;
    const diagnostics = this.diagnostics(opened, findings);
    for (const uri of document.uris)
      await connection.sendDiagnostics({
        uri,
        version: document.versionOf(uri) ?? document.version,
        diagnostics: diagnostics.get(uri) ?? [],
      });
  }

  /** Diagnostics by URI, cached for each list of findings: a notebook requests them once for each cell. */
  protected diagnostics(opened: Opened, findings: readonly Finding[]): ReadonlyMap<string, Diagnostic[]> {
    const before = this.cached.get(findings);
    if (before && before.typed === opened.typed) return before.diagnostics;
    const diagnostics = diagnosticsOf(this.session, opened, findings);
    this.cached.set(findings, { typed: opened.typed, diagnostics });
    return diagnostics;
  }

  /** Resolves when the first findings of a long file are known. @returns whether cells are still unread */
  protected async early(opened: Opened): Promise<boolean> {
    await this.session.workspace.until(opened, ({ cellsRead }) => cellsRead >= FEW);
    return !opened.book.isRead;
  }

  /** Diagnostics of a workbook that is not open; undefined if it cannot be read. */
  protected async ofOther(uri: string): Promise<Diagnostic[] | undefined> {
    const { workspace } = this.session;
    const other = await workspace.load(uri);
    if (!other) return undefined;
    await workspace.ready(other);
    return this.diagnostics(other, other.book.findings()).get(uri) ?? [];
  }

  /** URIs of the workbooks in the open folders that are not open. */
  protected async others(): Promise<string[]> {
    const { host, folders, workspace } = this.session;
    const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
    return [...new Set(uris)].filter((uri) => !workspace.byUri(uri));
  }

  protected abstract shown(opened: Opened): void;
}
