/** The floor of any server: it follows the text, answers everything with nothing, and finds nothing. */
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
