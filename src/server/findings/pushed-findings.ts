/** Push diagnostics for clients that cannot pull, also for workbooks that are not open. */
import type { Opened } from '../documents/workspace.ts';
import type { Findings } from './findings-type.ts';
import { guarded } from '../documents/session.ts';
import { BaseFindings } from './base-findings.ts';

export class PushedFindings extends BaseFindings implements Findings {
  /** URIs of workbooks that are not open. */
  private elsewhere: ReadonlySet<string> = new Set();

  override changed(opened: Opened): void {
    super.changed(opened);
    this.shown(opened);
  }

  protected shown(opened: Opened): void {
    this.push(opened);
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
