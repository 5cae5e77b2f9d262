/** Push diagnostics for clients that cannot pull, also for workbooks that are not open. */
import type { Finding } from '../../model/index.ts';
import type { Opened } from '../documents/workspace.ts';
import type { Findings } from './findings-type.ts';
import { guarded } from '../documents/session.ts';
import { BaseFindings } from './base-findings.ts';

export class PushedFindings extends BaseFindings implements Findings {
  /** How often diagnostics of each workbook were started. */
  private readonly turns = new WeakMap<Opened, number>();

  /** URIs of workbooks that are not open. */
  private elsewhere: ReadonlySet<string> = new Set();

  override changed(opened: Opened): void {
    super.changed(opened);
    this.shown(opened);
  }

  protected shown(opened: Opened): void {
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

  started(): void {
    void guarded(this.session, 'findings of the folders', undefined, () => this.sendOthers())(undefined);
  }

  private async sendOthers(): Promise<void> {
    const now = await this.others();
    const gone = [...this.elsewhere].filter((uri) => !now.includes(uri));
    this.elsewhere = new Set(now);
    for (const uri of [...gone, ...now]) await this.sendOther(uri);
  }

  /** Sends the diagnostics of the file on disk, none if it is gone. */
  private async sendOther(uri: string): Promise<void> {
    const { connection, workspace } = this.session;
    const diagnostics = this.elsewhere.has(uri) ? await this.ofOther(uri) : undefined;
    if (!workspace.byUri(uri)) await connection.sendDiagnostics({ uri, diagnostics: diagnostics ?? [] });
  }

  closed(uris: readonly string[]): void {
    for (const uri of uris) void this.session.connection.sendDiagnostics({ uri, diagnostics: [] });
    // From here on the file on disk is used.
    this.started();
  }

  changedOnDisk(): void {
    for (const opened of this.session.workspace.all()) this.shown(opened);
    this.started();
  }
}
