/** What stands below the cells of a notebook: sent to the renderer while typing, for the cells in view, never saved. */
import {
  Disposable,
  NotebookCellKind,
  notebooks,
  window,
  workspace,
  type NotebookCell,
  type NotebookDocument,
  type NotebookEditor,
  type NotebookRendererMessaging,
} from 'vscode';
import { sheetHeight, type CellView, type FromSheets, type ToSheets } from '../../model/index.ts';
import { latest } from '../latest.ts';
import type { Server } from '../server.ts';
import { Controller } from './controller.ts';
import { keyOf, RENDERER } from './sheets.ts';
import { NOTEBOOK } from './type.ts';

export class Outputs implements Disposable {
  readonly #server: Server;
  readonly #controller: Controller;
  readonly #messaging: NotebookRendererMessaging = notebooks.createRendererMessaging(RENDERER);
  readonly #subscriptions: Disposable;
  readonly #refresh = latest(() => this.#refreshAll());
  /** The view sent last for each key, as JSON. */
  readonly #sent = new Map<string, string>();
  /** Keys that a renderer waits for: it draws a little beyond what is in view. */
  readonly #asked = new Set<string>();

  constructor(server: Server, extension: string) {
    this.#server = server;
    this.#controller = new Controller(extension, this.#refresh);
    this.#subscriptions = Disposable.from(
      this.#controller,
      workspace.onDidChangeNotebookDocument(({ notebook }) => notebook.notebookType === NOTEBOOK && this.#refresh()),
      window.onDidChangeVisibleNotebookEditors(this.#refresh),
      window.onDidChangeNotebookEditorVisibleRanges(this.#refresh),
      server.onDidChange(this.#refresh),
      this.#messaging.onDidReceiveMessage(({ message }) => this.#answer(message as FromSheets)),
    );
    this.#refresh();
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  #answer({ key }: FromSheets): void {
    const sent = this.#sent.get(key);
    // A page that was loaded again has nothing of what was sent to the one before.
    if (sent !== undefined) this.#post({ [key]: JSON.parse(sent) as CellView | null });
    this.#asked.add(key);
    this.#refresh();
  }

  async #refreshAll(): Promise<void> {
    for (const editor of window.visibleNotebookEditors)
      if (editor.notebook.notebookType === NOTEBOOK) await this.#refreshIn(editor).catch(() => undefined);
  }

  async #refreshIn(editor: NotebookEditor): Promise<void> {
    const { notebook } = editor;
    const cells = this.#cellsIn(editor);
    const params = { uri: notebook.uri.toString(), cells: cells.map(({ document }) => document.uri.toString()) };
    const views = await this.#server.request('alignbook/cells', params);
    if (!views || notebook.isClosed) return;
    const taken = await this.#placesIn(notebook);
    for (const [k, cell] of cells.entries()) {
      const [key, view] = [keyOf(cell), views[k] ?? null];
      if (key !== undefined && taken.get(key) === cell) this.#send(key, view);
      else if (view && view.kind !== 'unread') await this.#controller.makePlace(cell);
    }
  }

  /** Makes the places that are missing. @returns the first cell with each key: a copied cell has that of its original */
  async #placesIn(notebook: NotebookDocument): Promise<ReadonlyMap<string, NotebookCell>> {
    const cells = new Map<string, NotebookCell>();
    for (const cell of notebook.getCells()) {
      const key = keyOf(cell);
      if (key !== undefined && !cells.has(key)) cells.set(key, cell);
      else if (cell.kind === NotebookCellKind.Code && sheetHeight(cell.document.getText()) !== undefined)
        await this.#controller.makePlace(cell);
    }
    return cells;
  }

  #cellsIn({ notebook, visibleRanges }: NotebookEditor): NotebookCell[] {
    const inView = new Set(visibleRanges.flatMap((range) => notebook.getCells(range)));
    return notebook
      .getCells()
      .filter(
        (cell) => cell.kind === NotebookCellKind.Code && (inView.has(cell) || this.#asked.has(keyOf(cell) ?? '')),
      );
  }

  #send(key: string, view: CellView | null): void {
    this.#asked.delete(key);
    const text = JSON.stringify(view);
    if (this.#sent.get(key) === text) return;
    this.#sent.set(key, text);
    this.#post({ [key]: view });
  }

  #post(views: ToSheets): void {
    void this.#messaging.postMessage(views);
  }
}
