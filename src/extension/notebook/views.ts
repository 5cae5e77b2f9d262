/**
 * One file, two views. Only one of them may have unsaved changes, else one would overwrite the other: switching saves
 * first, and is cancelled if saving fails.
 */
import {
  commands,
  l10n,
  TabInputNotebook,
  TabInputText,
  window,
  workspace,
  type NotebookDocument,
  type TextDocument,
  type Uri,
} from 'vscode';
import { splitCells } from '../../cells/index.ts';
import { LANGUAGE } from '../language.ts';
import { MOST_CELLS, NOTEBOOK } from './type.ts';

export async function showAsNotebook(): Promise<void> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== LANGUAGE || document.uri.scheme === 'vscode-notebook-cell') return;
  const count = splitCells(document.getText()).cells.length;
  if (count > MOST_CELLS) {
    void window.showInformationMessage(
      l10n.t(
        'This workbook has {0} cells. A notebook of this size opens slowly. Use the text and its targets.',
        count.toLocaleString('en'),
      ),
    );
    return;
  }
  const saved = await savedAs(document);
  if (saved) await switchTo(saved, NOTEBOOK, (input) => input instanceof TabInputText);
}

export async function showAsText(): Promise<void> {
  const notebook = window.activeNotebookEditor?.notebook;
  if (notebook?.notebookType !== NOTEBOOK) return;
  const saved = await savedAs(notebook);
  if (saved) await switchTo(saved, 'default', (input) => input instanceof TabInputNotebook);
}

/** The file in which the workbook is now saved: a new one is asked for its name. Undefined if it was not saved. */
async function savedAs({ uri, isDirty, isUntitled }: TextDocument | NotebookDocument): Promise<Uri | undefined> {
  if (!isDirty && !isUntitled) return uri;
  const saved = await workspace.save(uri);
  // Who closes the dialog has changed their mind: nothing failed.
  if (!saved && !isUntitled)
    void window.showWarningMessage(
      l10n.t(
        'The workbook could not be saved, so this view stays open. Two views with different changes cannot both be kept.',
      ),
    );
  return saved;
}

/** Milliseconds: more than an editor that has just been started needs for its first notebook. */
const PATIENCE = 10_000;

/**
 * The new view replaces the old one. Now and then the editor never draws a notebook that follows one which was closed
 * while it was being drawn, and waits for it: it is opened once more then.
 */
async function switchTo(uri: Uri, view: string, isOld: (input: unknown) => boolean): Promise<void> {
  const column = window.tabGroups.activeTabGroup.viewColumn;
  const open = () => commands.executeCommand('vscode.openWith', uri, view, column);
  if (!(await within(PATIENCE, open())) && !isShown(uri)) {
    await window.tabGroups.close(
      window.tabGroups.all.flatMap(({ tabs }) => tabs).filter(({ input }) => !isOld(input) && isOf(uri, input)),
    );
    await open();
  }
  const tabs = window.tabGroups.all.flatMap((group) => group.tabs);
  const old = tabs.filter(({ input }) => isOld(input) && isOf(uri, input));
  await window.tabGroups.close(old, true);
}

function isShown(uri: Uri): boolean {
  return window.visibleNotebookEditors.some(({ notebook }) => notebook.uri.toString() === uri.toString());
}

function isOf(uri: Uri, input: unknown): boolean {
  return (
    (input instanceof TabInputText || input instanceof TabInputNotebook) && input.uri.toString() === uri.toString()
  );
}

/** Whether the work is done before that time is over. */
async function within(milliseconds: number, work: Thenable<unknown>): Promise<boolean> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<boolean>((resolve) => (timer = setTimeout(() => resolve(false), milliseconds)));
  const done = await Promise.race([work.then(() => true), late]);
  clearTimeout(timer);
  return done;
}
