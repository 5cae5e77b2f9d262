/** Appends cells to a notebook. */
import {
  NotebookCellData,
  NotebookCellKind,
  NotebookEdit,
  workspace,
  WorkspaceEdit,
  type NotebookDocument,
} from 'vscode';
import { LANGUAGE } from '../language.ts';

export async function appendToNotebook(notebook: NotebookDocument, cells: readonly string[]): Promise<void> {
  const edit = new WorkspaceEdit();
  const data = cells.map((text) => new NotebookCellData(NotebookCellKind.Code, text.replace(/\n$/, ''), LANGUAGE));
  edit.set(notebook.uri, [NotebookEdit.insertCells(notebook.cellCount, data)]);
  await workspace.applyEdit(edit);
}
