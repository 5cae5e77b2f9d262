/** The record of the last visit: shown beside the text, and saved where the user chooses. */
import { type Disposable, type Uri, ViewColumn, extensions, l10n, window, workspace, type WebviewPanel } from 'vscode';
import type { RecordParams, VisitRecord } from '../../model/index.ts';
import { paperSetting } from '../settings.ts';
import type { Server } from '../server.ts';
import { openNotebook } from '../shown.ts';
import { revisionOf } from './revision.ts';
import { isSameFile } from './same-file.ts';

/** As declared in package.json. */
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

  /** Whose record is shown, while it is open. */
  get workbook(): Uri | undefined {
    return this.#panel && this.#shown?.workbook;
  }

  dispose(): void {
    this.#panel?.dispose();
  }

  /** @returns whether there is a record */
  async show(workbook: Uri): Promise<boolean> {
    const record = await this.#made(workbook);
    if (!record) return false;
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
    return true;
  }

  /**
   * Saves the record as a page or as Markdown, by the extension of the chosen name. The editor writes the file in
   * place: to replace a file by renaming, it would first delete it.
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

  /** The record of the saved file: unsaved changes are saved first, so that the hash belongs to a file that exists. */
  async #made(workbook: Uri): Promise<VisitRecord | undefined> {
    if (!(await isSaved(workbook))) {
      void window.showWarningMessage(l10n.t('A record needs a saved file. Save the workbook first.'));
      return undefined;
    }
    const bytes = await workspace.fs.readFile(workbook);
    const revision = await revisionOf(workbook, extensions);
    const paper = paperSetting();
    const params: RecordParams = {
      uri: workbook.toString(),
      file: workspace.asRelativePath(workbook),
      hash: await sha256(bytes),
      version: this.#version,
      ...(revision && { revision }),
      ...(paper && { paper }),
    };
    return this.#server.request('alignbook/record', params);
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
