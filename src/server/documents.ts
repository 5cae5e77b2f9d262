/** What the client says of its documents: opened, edited, saved, closed, and files that changed on disk. */
import { DidChangeWatchedFilesNotification, type TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { textsOf, type Opened } from './desk.ts';
import type { Findings } from './findings.ts';
import { TextPaper } from './paper.ts';
import { guarded, type Session } from './session.ts';

/** More characters at once are not typed. */
const KEYSTROKE = 2;

export function followDocuments(session: Session, findings: Findings): void {
  const { connection, desk } = session;
  const changed = (opened: Opened) => {
    for (const borrower of desk.changed(opened)) findings.changed(borrower);
    findings.changed(opened);
  };

  connection.onDidOpenTextDocument(guarded(session, 'open', undefined, ({ textDocument: { uri, version, text } }) => {
    // A notebook's cells come with the notebook.
    if (desk.at(uri)) return;
    changed(desk.open(uri, new TextPaper(uri, version, text)));
  }));

  connection.onDidChangeTextDocument(guarded(session, 'edit', undefined, ({ textDocument: { uri, version }, contentChanges }) => {
    const opened = desk.at(uri);
    if (!(opened?.paper instanceof TextPaper)) return;
    for (const change of contentChanges) {
      const edit = editOf(opened, opened.paper, change, version);
      opened.book.change(opened.paper.text, edit);
    }
    changed(opened);
  }));

  connection.onDidSaveTextDocument(guarded(session, 'save', undefined, ({ textDocument: { uri } }) => {
    const opened = desk.at(uri);
    if (!opened) return;
    opened.saved = textsOf(opened.book);
    if (!opened.typed) return;
    opened.typed = undefined;
    findings.changed(opened);
  }));

  connection.onDidCloseTextDocument(guarded(session, 'close', undefined, ({ textDocument: { uri } }) => {
    const opened = desk.at(uri);
    if (!(opened?.paper instanceof TextPaper)) return;
    desk.close(uri);
    findings.closed([uri]);
  }));

  connection.onDidChangeWatchedFiles(guarded(session, 'files', undefined, ({ changes }) => {
    for (const { uri } of changes) for (const borrower of desk.changedOnDisk(uri)) findings.changed(borrower);
    findings.changedOnDisk();
  }));
}

function editOf(opened: Opened, paper: TextPaper, change: TextDocumentContentChangeEvent, version: number) {
  const edit = paper.change(change, version);
  const typing = edit && edit.length <= KEYSTROKE && edit.end - edit.start <= KEYSTROKE && !change.text.includes('\n');
  opened.typed = typing ? { at: edit.start + edit.length } : undefined;
  return edit;
}

/** Asked for where the client can watch; it is the client that has the disk. */
export async function watchFiles({ connection, client }: Session): Promise<void> {
  if (!client.workspace?.didChangeWatchedFiles?.dynamicRegistration) return;
  await connection.client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: '**/*.alignbook.yaml' }] });
}
