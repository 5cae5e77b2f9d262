/**
 * A workbook is known by its name: the editor associates languages with names before it looks at a first line. Renaming
 * in the explorer selects `name.alignbook` as what to replace, so that the new name easily makes it plain YAML.
 */
import { l10n, Uri, window, workspace, WorkspaceEdit, type Disposable } from 'vscode';
import { END, workbookName } from './workbook-name.ts';

/** Offers to add what is missing in the new name. */
export function followRenames(): Disposable {
  return workspace.onDidRenameFiles(({ files }) => {
    for (const { oldUri, newUri } of files) {
      const name = workbookName(nameOf(newUri));
      if (nameOf(oldUri).endsWith(END) && name !== undefined) void offer(newUri, name);
    }
  });
}

function nameOf({ path }: Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

async function offer(uri: Uri, name: string): Promise<void> {
  const rename = l10n.t('Rename to {0}', name);
  const choice = await window.showWarningMessage(
    l10n.t('{0} is no longer a workbook: only files that end with {1} are.', nameOf(uri), END),
    rename,
  );
  if (choice !== rename) return;
  const edit = new WorkspaceEdit();
  edit.renameFile(uri, Uri.joinPath(uri, '..', name));
  if (!(await workspace.applyEdit(edit))) {
    void window.showWarningMessage(l10n.t('{0} could not be renamed. Is there a file of this name?', nameOf(uri)));
  }
}
