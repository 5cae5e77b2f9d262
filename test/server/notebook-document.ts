/** A notebook as an editor holds it: it notifies the server of every change, and holds the present cells. */
import {
  DidChangeNotebookDocumentNotification,
  NotebookCellKind,
  DidCloseNotebookDocumentNotification,
  DidOpenNotebookDocumentNotification,
  type NotebookDocumentChangeEvent,
} from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Client } from './client.ts';

const KIND = NotebookCellKind.Code;

export class NotebookDocument {
  cells: TextDocument[];
  readonly uri: string;
  private readonly client: Client;
  private made = 0;
  private version = 1;

  constructor(client: Client, uri: string, texts: readonly string[]) {
    this.client = client;
    this.uri = uri;
    this.cells = texts.map((text) => this.make(text));
  }

  private make(text: string): TextDocument {
    return TextDocument.create(`${this.uri}#${this.made++}`, 'alignbook', 1, text);
  }

  get texts(): string[] {
    return this.cells.map((cell) => cell.getText());
  }

  open(): Promise<void> {
    const { uri, cells, version } = this;
    return this.client.connection.sendNotification(DidOpenNotebookDocumentNotification.type, {
      notebookDocument: {
        uri,
        notebookType: 'alignbook',
        version,
        cells: cells.map((cell) => ({ kind: KIND, document: cell.uri })),
      },
      cellTextDocuments: cells.map(itemOf),
    });
  }

  close(): Promise<void> {
    return this.client.connection.sendNotification(DidCloseNotebookDocumentNotification.type, {
      notebookDocument: { uri: this.uri },
      cellTextDocuments: this.cells.map(({ uri }) => ({ uri })),
    });
  }

  write(k: number, start: number, end: number, text: string): Promise<void> {
    const cell = this.cells[k]!;
    const change = { range: { start: cell.positionAt(start), end: cell.positionAt(end) }, text };
    this.cells[k] = TextDocument.update(cell, [change], cell.version + 1);
    return this.notify({
      cells: { textContent: [{ document: { uri: cell.uri, version: cell.version }, changes: [change] }] },
    });
  }

  splice(start: number, deleteCount: number, ...texts: string[]): Promise<void> {
    const made = texts.map((text) => this.make(text));
    const gone = this.cells.splice(start, deleteCount, ...made);
    return this.notify({
      cells: {
        structure: {
          array: { start, deleteCount, cells: made.map(({ uri }) => ({ kind: KIND, document: uri })) },
          didOpen: made.map(itemOf),
          didClose: gone.map(({ uri }) => ({ uri })),
        },
      },
    });
  }

  private notify(change: NotebookDocumentChangeEvent): Promise<void> {
    return this.client.connection.sendNotification(DidChangeNotebookDocumentNotification.type, {
      notebookDocument: { uri: this.uri, version: ++this.version },
      change,
    });
  }
}

function itemOf(cell: TextDocument) {
  return { uri: cell.uri, languageId: cell.languageId, version: cell.version, text: cell.getText() };
}
