/** What both ways of telling findings have in common. */
import type { Diagnostic } from 'vscode-languageserver';
import type { Finding } from '../../model/index.ts';
import type { Opened } from '../documents/desk.ts';
import { diagnosticsOf } from './diagnostics.ts';
import type { Session } from '../documents/session.ts';

/** Of a long file the findings of so many cells are shown before the others are known. */
const FEW = 50;
/** Milliseconds after the last key after which a word counts as finished. */
const PAUSE = 1000;

/** A word that is being typed is finished some time. */
export abstract class ToldFindings {
  protected readonly session: Session;
  private readonly pauses = new WeakMap<Opened, ReturnType<typeof setTimeout>>();
  private readonly told = new WeakMap<
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

  /** Of a workbook that nobody has open; nothing where it cannot be had. */
  protected async ofOther(uri: string): Promise<Diagnostic[] | undefined> {
    const { desk } = this.session;
    const other = await desk.borrow(uri);
    if (!other) return undefined;
    await desk.ready(other);
    return this.diagnostics(other, other.book.findings()).get(uri) ?? [];
  }

  /** Addresses of the workbooks in the open folders that nobody has open. */
  protected async others(): Promise<string[]> {
    const { host, folders, desk } = this.session;
    const uris = (await Promise.all([...folders].map((folder) => host.workbooksIn(folder)))).flat();
    return [...new Set(uris)].filter((uri) => !desk.whole(uri));
  }

  protected abstract shown(opened: Opened): void;
}
