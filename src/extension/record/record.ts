/** The record of the last visit: shown beside the text, and written where the person wants it. */
import { type Disposable, type Uri, ViewColumn, extensions, l10n, window, workspace, type WebviewPanel } from 'vscode';
import { RECORD_REQUEST, type RecordParams, type VisitRecord } from '../../../shared/messages.ts';
import type { Server } from '../server.ts';
import { activeWorkbook, openNotebook } from '../shown.ts';
import { revisionOf } from './revision.ts';
import { isSameFile } from './same-file.ts';

/** As package.json declares it. */
const PANEL = 'alignbook.record';

export class RecordView implements Disposable {
  readonly #server: Server;
  readonly #version: string;
  #panel: WebviewPanel | undefined;
  #shown: { readonly workbook: Uri; readonly record: VisitRecord } | undefined;

  constructor(server: Server, version: string) {
    this.#server = server;
    this.#version = version;
  }

  dispose(): void {
    this.#panel?.dispose();
  }

  async show(): Promise<void> {
    const workbook = activeWorkbook();
    if (!workbook) return;
    const record = await this.#made(workbook);
    if (!record) return;
    this.#shown = { workbook, record };
    if (!this.#panel) {
      this.#panel = window.createWebviewPanel(PANEL, l10n.t('Record'), ViewColumn.Beside, {
        enableScripts: false,
        localResourceRoots: [],
        enableFindWidget: true,
      });
      this.#panel.onDidDispose(() => (this.#panel = undefined));
    }
    this.#panel.webview.html = record.html;
    this.#panel.reveal();
  }

  /**
   * As a page or as Markdown, by the name that is chosen. The editor writes it in place, as it saves every file: to
   * replace one by renaming, it would first remove the old one.
   */
  async save(): Promise<void> {
    if (!this.#shown) return;
    const { workbook, record } = this.#shown;
    const defaultUri = workbook.with({ path: workbook.path.replace(/(\.alignbook)?\.ya?ml$/, '.html') });
    const chosen = await window.showSaveDialog({
      defaultUri,
      filters: { [l10n.t('Page')]: ['html'], Markdown: ['md'] },
      title: l10n.t('Save Record'),
    });
    if (!chosen) return;
    if (/\.ya?ml$/i.test(chosen.path) || (await isSameFile(chosen, workbook, (file) => workspace.fs.stat(file)))) {
      void window.showWarningMessage(l10n.t('A record cannot replace a workbook. Choose another name.'));
      return;
    }
    const text = chosen.path.endsWith('.md') ? record.markdown : record.html;
    await workspace.fs.writeFile(chosen, new TextEncoder().encode(text));
  }

  /** Of what is on the disk: so that the hash is that of a file which exists, what is open is saved first. */
  async #made(workbook: Uri): Promise<VisitRecord | undefined> {
    if (!(await isSaved(workbook))) {
      void window.showWarningMessage(l10n.t('A record needs a saved file. Save the workbook first.'));
      return undefined;
    }
    const bytes = await workspace.fs.readFile(workbook);
    const revision = await revisionOf(workbook, extensions);
    const params: RecordParams = {
      uri: workbook.toString(),
      file: workspace.asRelativePath(workbook),
      hash: await sha256(bytes),
      version: this.#version,
      ...(revision && { revision }),
    };
    return this.#server.ask<VisitRecord>(RECORD_REQUEST, params);
  }
}

async function isSaved(workbook: Uri): Promise<boolean> {
  const notebook = openNotebook(workbook);
  if (notebook) return !notebook.isDirty || notebook.save();
  const document = await workspace.openTextDocument(workbook);
  return !document.isUntitled && (!document.isDirty || (await document.save()));
}

async function sha256(bytes: Uint8Array): Promise<string> {
  const hash = await crypto.subtle.digest('SHA-256', bytes.slice());
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
