/** Document notifications: open, change, save, close, and files that changed on disk. */
import { DidChangeWatchedFilesNotification } from 'vscode-languageserver';
import type { Opened } from '../documents/workspace.ts';
import { announce } from '../findings/findings.ts';
import type { Findings } from '../findings/findings-type.ts';
import { SingleDocument } from '../documents/single-document.ts';
import { guarded, type Session } from '../documents/session.ts';
import type { Machines } from './machines.ts';
import { typedBy } from './typed-by.ts';

export interface Documents {
  /** Uses the text document of a file again after its notebook was closed. */
  resume(uri: string): void;
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one handler for each notification
export function followDocuments(session: Session, findings: Findings, machines: Machines): Documents {
  const { connection, workspace } = session;
  const documents = new Map<string, SingleDocument>();
  const changed = (opened: Opened) => announce(workspace, findings, opened);

  connection.onDidOpenTextDocument(
    guarded(session, 'open', undefined, ({ textDocument: { uri, version, text } }) => {
      const document = new SingleDocument(uri, version, text);
      documents.set(uri, document);
      const isNotebook = workspace.byUri(uri)?.document.has(uri) === false;
      if (!isNotebook) changed(workspace.open(uri, document));
    }),
  );

  connection.onDidChangeTextDocument(
    guarded(session, 'edit', undefined, ({ textDocument: { uri, version }, contentChanges }) => {
      const document = documents.get(uri);
      const opened = workspace.byUri(uri);
      for (const change of contentChanges) {
        const edit = document?.change(change, version);
        if (!document || opened?.document !== document) continue;
        opened.book.change(document.text, edit);
        opened.typed = typedBy(change, edit);
      }
      if (document && opened?.document === document) changed(opened);
    }),
  );

  connection.onDidSaveTextDocument(
    guarded(session, 'save', undefined, ({ textDocument: { uri } }) => {
      const opened = workspace.byUri(uri);
      if (opened) saved(opened, findings);
    }),
  );

  connection.onDidCloseTextDocument(
    guarded(session, 'close', undefined, ({ textDocument: { uri } }) => {
      const document = documents.get(uri);
      documents.delete(uri);
      if (!document || workspace.byUri(uri)?.document !== document) return;
      workspace.close(uri);
      findings.closed([uri]);
    }),
  );

  connection.onDidChangeWatchedFiles(
    guarded(session, 'files', undefined, ({ changes }) => {
      machines.changedOnDisk(changes.map(({ uri }) => uri));
      for (const { uri } of changes) for (const borrower of workspace.changedOnDisk(uri)) findings.changed(borrower);
      findings.changedOnDisk();
    }),
  );

  return {
    resume(uri) {
      const document = documents.get(uri);
      if (document) changed(workspace.open(uri, document));
    },
  };
}

/** After saving, formatting treats the text as unedited, and a half-typed word as finished. */
export function saved(opened: Opened, findings: Findings): void {
  opened.saved = opened.document.text;
  if (!opened.typed) return;
  opened.typed = undefined;
  findings.changed(opened);
}

/** Registers a file watcher if the client supports it. */
export async function watchFiles({ connection, client }: Session): Promise<void> {
  if (!client.workspace?.didChangeWatchedFiles?.dynamicRegistration) return;
  await connection.client.register(DidChangeWatchedFilesNotification.type, {
    watchers: [{ globPattern: '**/*.alignbook.yaml' }],
  });
}
