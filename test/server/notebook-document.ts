/** A notebook as an editor has it: it notifies the server of every change, and has the present cells. */
import {
  DidChangeNotebookDocumentNotification,
  NotebookCellKind,
  DidCloseNotebookDocumentNotification,
  DidOpenNotebookDocumentNotification,
  type NotebookCell as ProtocolCell,
  type NotebookDocumentChangeEvent,
} from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { FileOrigin, NotebookCell, NotebookText } from '../../src/cells/index.ts';
import type { Client } from './client.ts';

const KIND = { cell: NotebookCellKind.Code, note: NotebookCellKind.Markup };
const LANGUAGE = { cell: 'alignbook', note: 'markdown' };

/** A cell that was just typed. */
const typed = (text: string): NotebookCell => ({ kind: 'cell', text });

export class NotebookDocument {
  cells: TextDocument[];
  readonly uri: string;
  private readonly client: Client;
  private made = 0;
  private version = 1;
  private readonly origin: FileOrigin | undefined;
  /** By the URI of the document. */
  private readonly sources = new Map<string, NotebookCell>();

  /** Of a file, or of the texts of cells that belong to none. */
  constructor(client: Client, uri: string, of: NotebookText | readonly string[]) {
    const isFile = 'origin' in of;
    this.client = client;
    this.uri = uri;
    this.origin = isFile ? of.origin : undefined;
    this.cells = (isFile ? of.cells : of.map(typed)).map((cell) => this.make(cell));
  }

  private make(cell: NotebookCell): TextDocument {
    const document = TextDocument.create(`${this.uri}#${this.made++}`, LANGUAGE[cell.kind], 1, cell.text);
    this.sources.set(document.uri, cell);
    return document;
  }

  private cellOf({ uri }: TextDocument): ProtocolCell {
    const { kind, origin } = this.sources.get(uri)!;
    return { kind: KIND[kind], document: uri, ...(origin && { metadata: { origin: { ...origin } } }) };
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
        ...(this.origin && { metadata: { origin: { ...this.origin } } }),
        cells: cells.map((cell) => this.cellOf(cell)),
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
    const made = texts.map((text) => this.make(typed(text)));
    const gone = this.cells.splice(start, deleteCount, ...made);
    return this.notify({
      cells: {
        structure: {
          array: { start, deleteCount, cells: made.map((cell) => this.cellOf(cell)) },
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
