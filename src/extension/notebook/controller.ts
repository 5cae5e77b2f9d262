/**
 * The editor draws nothing below a cell and offers *Run All* all the same, with a list of kernels to install, unless a
 * notebook has a controller. Ours runs nothing: a cell that is run is drawn again. It writes only the places for
 * pictures, below cells that have none: cells that were typed in, or whose outputs were cleared.
 */
import {
  commands,
  Disposable,
  NotebookControllerAffinity,
  notebooks,
  window,
  workspace,
  type NotebookCell,
  type NotebookController,
  type NotebookDocument,
  type NotebookEditor,
} from 'vscode';
import { sheetHeight } from '../../model/index.ts';
import { LANGUAGE } from '../language.ts';
import { newSheet } from './sheets.ts';
import { NOTEBOOK } from './type.ts';

export class Controller implements Disposable {
  readonly #controller: NotebookController;
  readonly #subscriptions: Disposable;
  readonly #selected = new WeakSet<NotebookDocument>();

  /** @param extension its identifier @param redraw is called when cells are run, and when places can be made */
  constructor(extension: string, redraw: () => void) {
    this.#controller = notebooks.createNotebookController(NOTEBOOK, NOTEBOOK, 'Alignbook', redraw);
    this.#controller.supportedLanguages = [LANGUAGE];
    this.#controller.supportsExecutionOrder = false;
    const prefer = (notebook: NotebookDocument) =>
      notebook.notebookType === NOTEBOOK &&
      this.#controller.updateNotebookAffinity(notebook, NotebookControllerAffinity.Preferred);
    const choose = (editors: readonly NotebookEditor[]) =>
      editors.forEach((editor) => void this.#choose(editor, extension));
    workspace.notebookDocuments.forEach(prefer);
    this.#subscriptions = Disposable.from(
      this.#controller,
      workspace.onDidOpenNotebookDocument(prefer),
      window.onDidChangeVisibleNotebookEditors(choose),
      this.#controller.onDidChangeSelectedNotebooks(({ notebook, selected }) => {
        if (selected) this.#selected.add(notebook);
        else this.#selected.delete(notebook);
        redraw();
      }),
    );
    choose(window.visibleNotebookEditors);
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  /** It is the only one, so nobody is asked. */
  async #choose(notebookEditor: NotebookEditor, extension: string): Promise<void> {
    const { notebook } = notebookEditor;
    if (notebook.notebookType !== NOTEBOOK || this.#selected.has(notebook)) return;
    await commands.executeCommand('notebook.selectKernel', { notebookEditor, id: NOTEBOOK, extension });
  }

  /** Makes the place for a picture below a cell, if the editor lets us: a notebook that was just opened does not yet. */
  async makePlace(cell: NotebookCell): Promise<void> {
    if (cell.index < 0 || !this.#selected.has(cell.notebook)) return;
    const execution = this.#controller.createNotebookCellExecution(cell);
    execution.start();
    await execution.replaceOutput([newSheet(sheetHeight(cell.document.getText()) ?? 0)]);
    execution.end(undefined);
  }
}
