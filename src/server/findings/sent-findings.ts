/** Findings that are sent, also of workbooks that nobody has open: the client cannot ask. */
import type { Finding } from '../../model/index.ts';
import type { Opened } from '../documents/desk.ts';
import type { Findings } from './findings-type.ts';
import { guarded } from '../documents/session.ts';
import { ToldFindings } from './told-findings.ts';

export class SentFindings extends ToldFindings implements Findings {
  /** How often each has been looked at. */
  private readonly turns = new WeakMap<Opened, number>();

  /** Addresses of workbooks that nobody has open. */
  private elsewhere: ReadonlySet<string> = new Set();

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
    if (desk.whole(opened.uri) === opened && this.turns.get(opened) === turn + 1)
      await this.put(opened, opened.book.findings());
  }

  private async put(opened: Opened, findings: readonly Finding[]): Promise<void> {
    const { connection } = this.session;
    const { paper } = opened;
    const diagnostics = this.diagnostics(opened, findings);
    for (const uri of paper.uris)
      await connection.sendDiagnostics({
        uri,
        version: paper.versionOf(uri) ?? paper.version,
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

  /** As it is on disk; nothing where it is not there. */
  private async sendOther(uri: string): Promise<void> {
    const { connection, desk } = this.session;
    const diagnostics = this.elsewhere.has(uri) ? await this.ofOther(uri) : undefined;
    if (!desk.whole(uri)) await connection.sendDiagnostics({ uri, diagnostics: diagnostics ?? [] });
  }

  closed(uris: readonly string[]): void {
    for (const uri of uris) void this.session.connection.sendDiagnostics({ uri, diagnostics: [] });
    // What is on disk counts again.
    this.started();
  }

  changedOnDisk(): void {
    for (const opened of this.session.desk.all()) this.shown(opened);
    this.started();
  }
}
