/** Finds where a workbook is shown: as text, or as a notebook with a document for each cell. */
import {
  commands,
  NotebookEditorRevealType,
  NotebookRange,
  Selection,
  ViewColumn,
  window,
  workspace,
  type NotebookDocument,
  type Range,
  type TextDocument,
  type TextEditor,
  type Uri,
} from 'vscode';
import { LANGUAGE } from './language.ts';
import { NOTEBOOK } from './notebook/type.ts';

/** The URI of the workbook that a document is, or is a cell of. */
export function workbookOf(document: TextDocument): Uri {
  return (document.uri.scheme === 'vscode-notebook-cell' && notebookOf(document)?.uri) || document.uri;
}

/** The workbook in the active editor. */
export function activeWorkbook(): Uri | undefined {
  const notebook = window.activeNotebookEditor?.notebook;
  if (notebook?.notebookType === NOTEBOOK) return notebook.uri;
  const document = window.activeTextEditor?.document;
  return document?.languageId === LANGUAGE ? workbookOf(document) : undefined;
}

export function openNotebook(uri: Uri): NotebookDocument | undefined {
  return workspace.notebookDocuments.find(
    (one) => one.notebookType === NOTEBOOK && one.uri.toString() === uri.toString(),
  );
}

function notebookOf(document: TextDocument): NotebookDocument | undefined {
  return workspace.notebookDocuments.find(
    (notebook) => notebook.notebookType === NOTEBOOK && notebook.getCells().some((cell) => cell.document === document),
  );
}

/**
 * Shows the document with the focus: where it is shown already, else in the first column; a notebook cell in its
 * notebook.
 */
export async function showText(
  document: TextDocument,
  selection?: Range,
  preserveFocus = false,
): Promise<TextEditor | undefined> {
  const notebook = notebookOf(document);
  if (notebook) return showCell(notebook, document, { selection, preserveFocus });
  const open = window.visibleTextEditors.find((editor) => editor.document === document);
  return window.showTextDocument(document, {
    viewColumn: open?.viewColumn ?? ViewColumn.One,
    preserveFocus,
    ...(selection && { selection }),
  });
}

async function showCell(
  notebook: NotebookDocument,
  document: TextDocument,
  { selection, preserveFocus }: { readonly selection: Range | undefined; readonly preserveFocus: boolean },
): Promise<TextEditor | undefined> {
  const index = notebook.getCells().findIndex((cell) => cell.document === document);
  const selections = [new NotebookRange(index, index + 1)];
  const shown = await window.showNotebookDocument(notebook, {
    viewColumn: columnOf(notebook),
    selections,
    preserveFocus,
  });
  shown.revealRange(selections[0]!, NotebookEditorRevealType.InCenterIfOutsideViewport);
  // A cell is edited with the focus, or not at all.
  if (preserveFocus) return undefined;
  await commands.executeCommand('notebook.cell.edit');
  const editor = await editorOf(document);
  if (editor && selection) await select(editor, new Selection(selection.start, selection.end));
  return editor;
}

/** Milliseconds between two looks, and how often: the editor of a cell is made when the cell comes into view. */
const LOOK = 25;
const LOOKS = 60;

/** How long a selection must last: an editor that was just made puts its cursor at the beginning when it is focused. */
const STEADY = 4;

async function select(editor: TextEditor, selection: Selection): Promise<void> {
  const { version } = editor.document;
  for (let look = 0, steady = 0; look < LOOKS && steady < STEADY; look++) {
    if (editor.document.version !== version) return;
    if (editor.selection.isEqual(selection)) steady++;
    else [editor.selection, steady] = [selection, 0];
    await new Promise((resolve) => setTimeout(resolve, LOOK));
  }
}

async function editorOf(document: TextDocument): Promise<TextEditor | undefined> {
  for (let look = 0; look < LOOKS; look++) {
    const editor = window.visibleTextEditors.find((one) => one.document === document);
    if (editor) return editor;
    await new Promise((resolve) => setTimeout(resolve, LOOK));
  }
  return undefined;
}

function columnOf(notebook: NotebookDocument): ViewColumn {
  return window.visibleNotebookEditors.find((editor) => editor.notebook === notebook)?.viewColumn ?? ViewColumn.One;
}
