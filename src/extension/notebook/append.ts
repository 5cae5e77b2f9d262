/** Puts cells into a notebook, shows them, and leaves the cursor where the first value belongs. */
import {
  commands,
  NotebookCellData,
  NotebookCellKind,
  NotebookEdit,
  window,
  workspace,
  WorkspaceEdit,
  type NotebookDocument,
} from 'vscode';
import { LANGUAGE } from '../language.ts';
import { showFirstBlank } from './blanks.ts';
import { newSheet, sheetsFor } from './sheets.ts';
import { NOTEBOOK } from './type.ts';

export async function appendToNotebook(notebook: NotebookDocument, cells: readonly string[]): Promise<void> {
  const at = notebook.cellCount;
  await insert(
    notebook,
    at,
    cells.map((text) => dataOf(text.replace(/\n$/, ''))),
  );
  const made = notebook.getCells().slice(at, at + cells.length);
  await showFirstBlank(made.map(({ document }) => document));
}

/** An empty cell below the selected one, with the list of its kinds. */
export async function insertCell(): Promise<void> {
  const editor = window.activeNotebookEditor;
  if (editor?.notebook.notebookType !== NOTEBOOK) return;
  const { notebook, selection } = editor;
  const at = Math.min(selection.end, notebook.cellCount);
  await insert(notebook, at, [dataOf('')]);
  await showFirstBlank([notebook.cellAt(at).document]);
  await commands.executeCommand('editor.action.triggerSuggest');
}

async function insert(notebook: NotebookDocument, at: number, data: NotebookCellData[]): Promise<void> {
  const edit = new WorkspaceEdit();
  edit.set(notebook.uri, [NotebookEdit.insertCells(at, data)]);
  await workspace.applyEdit(edit);
}

function dataOf(text: string): NotebookCellData {
  const data = new NotebookCellData(NotebookCellKind.Code, text, LANGUAGE);
  // The kind of an empty cell is not known yet.
  data.outputs = text === '' ? [newSheet(0)] : sheetsFor(text);
  return data;
}
