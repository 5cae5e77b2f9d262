/** The floor of any server: it keeps the text in step, gives empty answers, and reports no findings. */
import { createConnection, TextDocuments, TextDocumentSyncKind } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';

const connection = createConnection(process.stdin, process.stdout);
const documents = new TextDocuments(TextDocument);
connection.onInitialize(() => ({
  capabilities: { textDocumentSync: TextDocumentSyncKind.Incremental, hoverProvider: true, completionProvider: {} },
}));
connection.onHover(() => null);
connection.onCompletion(() => null);
documents.onDidChangeContent(({ document: { uri, version } }) =>
  connection.sendDiagnostics({ uri, version, diagnostics: [] }),
);
documents.listen(connection);
connection.listen();
