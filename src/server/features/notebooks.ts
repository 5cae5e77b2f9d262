/** A workbook that is open as a notebook: its cells are documents, and together they are the file. */
import type { Opened } from '../documents/desk.ts';
import { saved, type Documents } from './documents.ts';
import { announce } from '../findings/findings.ts';
import type { Findings } from '../findings/findings-type.ts';
import { NotebookPaper } from '../documents/notebook-paper.ts';
import { guarded, type Session } from '../documents/session.ts';
import { typedBy } from './typed-by.ts';

export const NOTEBOOK_TYPE = 'alignbook';

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one handler for each notification
export function followNotebooks(session: Session, findings: Findings, documents: Documents): void {
  const { connection, desk } = session;
  const notebooks = connection.notebooks.synchronization;
  const changed = (opened: Opened) => announce(desk, findings, opened);

  notebooks.onDidOpenNotebookDocument(
    guarded(session, 'open notebook', undefined, ({ notebookDocument: { uri, version, cells }, cellTextDocuments }) => {
      const texts = new Map(cellTextDocuments.map((item) => [item.uri, item]));
      // While it is open it is the truth: nothing is told under the file's own address.
      if (desk.whole(uri)) findings.closed([uri]);
      changed(
        desk.open(
          uri,
          new NotebookPaper(
            version,
            cells.flatMap(({ document }) => texts.get(document) ?? []),
          ),
        ),
      );
    }),
  );

  notebooks.onDidChangeNotebookDocument(
    guarded(session, 'edit notebook', undefined, ({ notebookDocument: { uri, version }, change: { cells } }) => {
      const opened = desk.whole(uri);
      if (!(opened?.paper instanceof NotebookPaper) || !cells) return;
      const { paper } = opened;
      paper.version = version;
      if (cells.structure) {
        const { array, didOpen = [], didClose = [] } = cells.structure;
        paper.restructure(array.start, array.deleteCount, array.cells?.map(({ document }) => document) ?? [], didOpen);
        findings.closed(didClose.map(({ uri: closed }) => closed));
      }
      opened.typed = undefined;
      for (const { document, changes } of cells.textContent ?? []) {
        for (const change of changes)
          opened.typed = typedBy(change, paper.change(document.uri, change, document.version));
      }
      opened.book.change(paper.text);
      changed(opened);
    }),
  );

  notebooks.onDidSaveNotebookDocument(
    guarded(session, 'save notebook', undefined, ({ notebookDocument: { uri } }) => {
      const opened = desk.whole(uri);
      if (opened) saved(opened, findings);
    }),
  );

  notebooks.onDidCloseNotebookDocument(
    guarded(session, 'close notebook', undefined, ({ notebookDocument: { uri } }) => {
      const opened = desk.whole(uri);
      if (!(opened?.paper instanceof NotebookPaper)) return;
      const { uris } = opened.paper;
      desk.close(uri);
      findings.closed(uris);
      documents.resume(uri);
    }),
  );
}
