/** What the client says of its documents: opened, edited, saved, closed, and files that changed on disk. */
import { DidChangeWatchedFilesNotification } from 'vscode-languageserver';
import type { Opened } from '../documents/desk.ts';
import { announce } from '../findings/findings.ts';
import type { Findings } from '../findings/findings-type.ts';
import { TextPaper } from '../documents/text-paper.ts';
import { guarded, type Session } from '../documents/session.ts';
import { typedBy } from './typed-by.ts';

export interface Documents {
  /** A text lay open under a notebook of the same file, which is closed now: the text is what counts again. */
  resume(uri: string): void;
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one handler for each notification
export function followDocuments(session: Session, findings: Findings): Documents {
  const { connection, desk } = session;
  const papers = new Map<string, TextPaper>();
  const changed = (opened: Opened) => announce(desk, findings, opened);

  connection.onDidOpenTextDocument(
    guarded(session, 'open', undefined, ({ textDocument: { uri, version, text } }) => {
      const paper = new TextPaper(uri, version, text);
      papers.set(uri, paper);
      const isNotebook = desk.whole(uri)?.paper.has(uri) === false;
      if (!isNotebook) changed(desk.open(uri, paper));
    }),
  );

  connection.onDidChangeTextDocument(
    guarded(session, 'edit', undefined, ({ textDocument: { uri, version }, contentChanges }) => {
      const paper = papers.get(uri);
      const opened = desk.whole(uri);
      for (const change of contentChanges) {
        const edit = paper?.change(change, version);
        if (!paper || opened?.paper !== paper) continue;
        opened.book.change(paper.text, edit);
        opened.typed = typedBy(change, edit);
      }
      if (paper && opened?.paper === paper) changed(opened);
    }),
  );

  connection.onDidSaveTextDocument(
    guarded(session, 'save', undefined, ({ textDocument: { uri } }) => {
      const opened = desk.whole(uri);
      if (opened) saved(opened, findings);
    }),
  );

  connection.onDidCloseTextDocument(
    guarded(session, 'close', undefined, ({ textDocument: { uri } }) => {
      const paper = papers.get(uri);
      papers.delete(uri);
      if (!paper || desk.whole(uri)?.paper !== paper) return;
      desk.close(uri);
      findings.closed([uri]);
    }),
  );

  connection.onDidChangeWatchedFiles(
    guarded(session, 'files', undefined, ({ changes }) => {
      for (const { uri } of changes) for (const borrower of desk.changedOnDisk(uri)) findings.changed(borrower);
      findings.changedOnDisk();
    }),
  );

  return {
    resume(uri) {
      const paper = papers.get(uri);
      if (paper) changed(desk.open(uri, paper));
    },
  };
}

/** What is on disk now counts as laid out, and the last word as finished. */
export function saved(opened: Opened, findings: Findings): void {
  opened.saved = opened.paper.text;
  if (!opened.typed) return;
  opened.typed = undefined;
  findings.changed(opened);
}

/** Asked for where the client can watch; it is the client that has the disk. */
export async function watchFiles({ connection, client }: Session): Promise<void> {
  if (!client.workspace?.didChangeWatchedFiles?.dynamicRegistration) return;
  await connection.client.register(DidChangeWatchedFilesNotification.type, {
    watchers: [{ globPattern: '**/*.alignbook.yaml' }],
  });
}
