/**
 * One file, two views. Only one of them may have unsaved changes, else one would overwrite the other: switching saves
 * first, and is cancelled if saving fails.
 */
import { commands, l10n, TabInputNotebook, TabInputText, window, type Uri } from 'vscode';
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
  if (document.isUntitled || (document.isDirty && !(await document.save()))) return refuse();
  await switchTo(document.uri, NOTEBOOK, (input) => input instanceof TabInputText);
}

export async function showAsText(): Promise<void> {
  const notebook = window.activeNotebookEditor?.notebook;
  if (notebook?.notebookType !== NOTEBOOK) return;
  if (notebook.isUntitled || (notebook.isDirty && !(await notebook.save()))) return refuse();
  await switchTo(notebook.uri, 'default', (input) => input instanceof TabInputNotebook);
}

function refuse(): void {
  void window.showWarningMessage(
    l10n.t(
      'The workbook could not be saved, so this view stays open. Two views with different changes cannot both be kept.',
    ),
  );
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
