/**
 * A file that is open in both views: as soon as one of them has unsaved changes, the other, which has none, is closed.
 * So neither overwrites the other's changes.
 */
import { Disposable, l10n, TabInputNotebook, TabInputText, window, workspace, type Uri } from 'vscode';
import { openNotebook } from '../shown.ts';
import { NOTEBOOK } from './type.ts';

export function oneAtATime(): Disposable {
  return Disposable.from(
    workspace.onDidChangeTextDocument(({ document }) => document.isDirty && void closeNotebook(document.uri)),
    workspace.onDidChangeNotebookDocument(
      ({ notebook }) => notebook.notebookType === NOTEBOOK && notebook.isDirty && void closeText(notebook.uri),
    ),
  );
}

async function closeNotebook(uri: Uri): Promise<void> {
  if (openNotebook(uri)?.isDirty === false) await close(uri, TabInputNotebook);
}

async function closeText(uri: Uri): Promise<void> {
  const document = workspace.textDocuments.find((one) => one.uri.toString() === uri.toString());
  if (document && !document.isDirty) await close(uri, TabInputText);
}

async function close(uri: Uri, view: typeof TabInputNotebook | typeof TabInputText): Promise<void> {
  const tabs = window.tabGroups.all
    .flatMap((group) => group.tabs)
    .filter(({ input }) => input instanceof view && input.uri.toString() === uri.toString());
  if (tabs.length === 0 || !(await window.tabGroups.close(tabs, true))) return;
  void window.showInformationMessage(
    l10n.t('The other view of this workbook was closed: a file is edited in one view at a time.'),
  );
}
