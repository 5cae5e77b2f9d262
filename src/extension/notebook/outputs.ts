/** The outputs below the cells of a notebook: updated while typing, for the visible cells, and never saved. */
import {
  commands,
  Disposable,
  NotebookCellKind,
  NotebookCellOutput,
  NotebookCellOutputItem,
  NotebookControllerAffinity,
  notebooks,
  window,
  workspace,
  type NotebookCell,
  type NotebookController,
  type NotebookDocument,
  type NotebookEditor,
} from 'vscode';
import { CELL_VIEW, type CellView } from '../../model/index.ts';
import { LANGUAGE } from '../language.ts';
import { latest } from '../latest.ts';
import type { Server } from '../server.ts';
import { NOTEBOOK } from './type.ts';

export class Outputs implements Disposable {
  readonly #server: Server;
  readonly #controller: NotebookController;
  readonly #subscriptions: Disposable;
  readonly #refresh = latest(() => this.#refreshAll());
  /** The output shown below each cell. */
  readonly #shown = new WeakMap<NotebookCell, string>();
  readonly #selected = new WeakSet<NotebookDocument>();

  constructor(server: Server, id: string) {
    this.#server = server;
    this.#controller = notebooks.createNotebookController(NOTEBOOK, NOTEBOOK, 'Alignbook', () => this.#refresh());
    this.#controller.supportedLanguages = [LANGUAGE];
    this.#controller.supportsExecutionOrder = false;
    const opened = (notebook: NotebookDocument) =>
      notebook.notebookType === NOTEBOOK &&
      this.#controller.updateNotebookAffinity(notebook, NotebookControllerAffinity.Preferred);
    workspace.notebookDocuments.forEach(opened);
    this.#subscriptions = Disposable.from(
      this.#controller,
      workspace.onDidOpenNotebookDocument(opened),
      workspace.onDidChangeNotebookDocument(({ notebook, contentChanges, cellChanges }) => {
        // Our own outputs cause change events too.
        const isEdit = contentChanges.length > 0 || cellChanges.some(({ document }) => document !== undefined);
        if (notebook.notebookType === NOTEBOOK && isEdit) this.#refresh();
      }),
      window.onDidChangeVisibleNotebookEditors((editors) => {
        editors.forEach((editor) => void this.#choose(editor, id));
        this.#refresh();
      }),
      window.onDidChangeNotebookEditorVisibleRanges(this.#refresh),
      this.#controller.onDidChangeSelectedNotebooks(({ notebook, selected }) => {
        if (selected) this.#selected.add(notebook);
        else this.#selected.delete(notebook);
        this.#refresh();
      }),
      server.onDidChange(this.#refresh),
    );
    window.visibleNotebookEditors.forEach((editor) => void this.#choose(editor, id));
    this.#refresh();
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  /** Selects the controller, without which no output can be shown. It is the only one. */
  async #choose(editor: NotebookEditor, extension: string): Promise<void> {
    if (editor.notebook.notebookType !== NOTEBOOK || this.#selected.has(editor.notebook)) return;
    await commands.executeCommand('notebook.selectKernel', { notebookEditor: editor, id: NOTEBOOK, extension });
  }

  async #refreshAll(): Promise<void> {
    for (const editor of window.visibleNotebookEditors) {
      if (this.#selected.has(editor.notebook)) await this.#refreshIn(editor).catch(() => undefined);
    }
  }

  async #refreshIn({ notebook, visibleRanges }: NotebookEditor): Promise<void> {
    const cells = visibleRanges
      .flatMap((range) => notebook.getCells(range))
      .filter(({ kind }) => kind === NotebookCellKind.Code);
    const params = { uri: notebook.uri.toString(), cells: cells.map(({ document }) => document.uri.toString()) };
    const views = await this.#server.request('alignbook/cells', params);
    if (!views || notebook.isClosed) return;
    for (const [k, cell] of cells.entries()) await this.#show(cell, views[k] ?? null);
  }

  /** Only a changed output is replaced, to prevent flicker. */
  async #show(cell: NotebookCell, view: CellView | null): Promise<void> {
    const text = JSON.stringify(view);
    if ((this.#shown.get(cell) ?? 'null') === text || cell.index < 0) return;
    this.#shown.set(cell, text);
    const execution = this.#controller.createNotebookCellExecution(cell);
    execution.start();
    await execution.replaceOutput(
      view
        ? [
            new NotebookCellOutput([
              NotebookCellOutputItem.json(view, CELL_VIEW),
              NotebookCellOutputItem.text(view.text),
            ]),
          ]
        : [],
    );
    execution.end(undefined);
  }
}
