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

/** The new view replaces the old one. */
async function switchTo(uri: Uri, view: string, isOld: (input: unknown) => boolean): Promise<void> {
  await commands.executeCommand('vscode.openWith', uri, view, window.tabGroups.activeTabGroup.viewColumn);
  const tabs = window.tabGroups.all.flatMap((group) => group.tabs);
  const old = tabs.filter(
    ({ input }) => isOld(input) && (input as TabInputText | TabInputNotebook).uri.toString() === uri.toString(),
  );
  await window.tabGroups.close(old, true);
}
