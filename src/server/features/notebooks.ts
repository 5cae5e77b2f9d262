/** Notebook notifications: a workbook that is open as a notebook has one document for each cell. */
import type { Opened } from '../documents/workspace.ts';
import { saved, type Documents } from './documents.ts';
import { announce } from '../findings/findings.ts';
import type { Findings } from '../findings/findings-type.ts';
import { NotebookDocument } from '../documents/notebook-document.ts';
import { guarded, type Session } from '../documents/session.ts';
import { typedBy } from './typed-by.ts';

export const NOTEBOOK_TYPE = 'alignbook';
/** Languages of the cells that the client sends: notes, too, so that nothing of the file is missing. */
export const NOTEBOOK_CELLS = [{ language: 'alignbook' }, { language: 'markdown' }];

export function followNotebooks(session: Session, findings: Findings, documents: Documents): void {
  const { connection, workspace } = session;
  const notebooks = connection.notebooks.synchronization;
  const changed = (opened: Opened) => announce(workspace, findings, opened);

  notebooks.onDidOpenNotebookDocument(
    guarded(session, 'open notebook', undefined, ({ notebookDocument, cellTextDocuments }) => {
      const { uri } = notebookDocument;
      // While the notebook is open, nothing is reported under the URI of the file itself.
      if (workspace.byUri(uri)) findings.closed([uri]);
      changed(workspace.open(uri, new NotebookDocument(notebookDocument, cellTextDocuments)));
    }),
  );

  notebooks.onDidChangeNotebookDocument(
    guarded(session, 'edit notebook', undefined, ({ notebookDocument: { uri, version }, change: { cells } }) => {
      const opened = workspace.byUri(uri);
      if (!(opened?.document instanceof NotebookDocument) || !cells) return;
      const { document } = opened;
      document.version = version;
      if (cells.structure) {
        const { array, didOpen = [], didClose = [] } = cells.structure;
        document.restructure(array.start, array.deleteCount, array.cells ?? [], didOpen);
        findings.closed(didClose.map(({ uri: closed }) => closed));
      }
      opened.typed = undefined;
      for (const { document: cell, changes } of cells.textContent ?? []) {
        for (const change of changes) opened.typed = typedBy(change, document.change(cell.uri, change, cell.version));
      }
      opened.book.change(document.text);
      changed(opened);
    }),
  );

  notebooks.onDidSaveNotebookDocument(
    guarded(session, 'save notebook', undefined, ({ notebookDocument: { uri } }) => {
      const opened = workspace.byUri(uri);
      if (opened) saved(opened, findings);
    }),
  );

  notebooks.onDidCloseNotebookDocument(
    guarded(session, 'close notebook', undefined, ({ notebookDocument: { uri } }) => {
      const opened = workspace.byUri(uri);
      if (!(opened?.document instanceof NotebookDocument)) return;
      const { uris } = opened.document;
      workspace.close(uri);
      findings.closed(uris);
      documents.resume(uri);
    }),
  );
}
