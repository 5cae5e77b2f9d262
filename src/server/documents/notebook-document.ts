/**
 * A workbook that is open as a notebook: each cell is a document, and together they are the file that the editor would
 * save, so that a finding is the same in both views.
 */
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  NotebookCellKind,
  type Location,
  type LSPObject,
  type NotebookCell as ProtocolCell,
  type NotebookDocument as ProtocolNotebook,
  type Position,
  type TextDocumentContentChangeEvent,
  type TextDocumentItem,
} from 'vscode-languageserver';
import { joinNotebook, type CellOrigin, type FileOrigin } from '../../cells/index.ts';
import type { Edit } from '../../language/index.ts';
import type { WorkbookDocument } from './workbook-document.ts';

interface Cell {
  readonly document: TextDocument;
  readonly kind: 'cell' | 'note';
  readonly origin?: CellOrigin | undefined;
}

interface CellDocument extends Cell {
  /** Offset in the file where the cell begins, and where its own text begins: a separator may precede it. */
  readonly from: number;
  readonly start: number;
}

/** Of a notebook that was not read from a file. */
const NO_FILE: FileOrigin = { head: '', tail: '', count: 0, end: '\n' };

export class NotebookDocument implements WorkbookDocument {
  version: number;
  text = '';
  private readonly origin: FileOrigin;
  private cells: Cell[];
  private cellDocuments: readonly CellDocument[] = [];
  private byUri: ReadonlyMap<string, CellDocument> = new Map();

  constructor({ version, metadata, cells }: ProtocolNotebook, opened: readonly TextDocumentItem[]) {
    this.version = version;
    this.origin = originIn<FileOrigin>(metadata) ?? NO_FILE;
    this.cells = cellsOf(cells, new Map(opened.map((item) => [item.uri, documentOf(item)])));
    this.join();
  }

  get uris(): readonly string[] {
    return this.cells.map(({ document: { uri } }) => uri);
  }

  has(uri: string): boolean {
    return this.byUri.has(uri);
  }

  versionOf(uri: string): number | null {
    return this.byUri.get(uri)?.document.version ?? null;
  }

  /** Applies cells that were inserted, removed or moved. */
  restructure(
    start: number,
    deleteCount: number,
    cells: readonly ProtocolCell[],
    opened: readonly TextDocumentItem[],
  ): void {
    const documents = [...this.cells.map(({ document }) => document), ...opened.map(documentOf)];
    const known = new Map(documents.map((document) => [document.uri, document]));
    this.cells.splice(start, deleteCount, ...cellsOf(cells, known));
    this.join();
  }

  /**
   * Applies an edit of one cell. @returns the edit in offsets of the whole file; undefined for an unknown cell, and for
   * a note, which is written in another way in the file
   */
  change(uri: string, change: TextDocumentContentChangeEvent, version: number): Edit | undefined {
    const cell = this.byUri.get(uri);
    if (!cell) return undefined;
    const { document, kind } = cell;
    const [from, to] =
      'range' in change
        ? [document.offsetAt(change.range.start), document.offsetAt(change.range.end)]
        : [0, document.getText().length];
    TextDocument.update(document, [change], version);
    this.join();
    const { start } = this.byUri.get(uri)!;
    return kind === 'note' ? undefined : { start: start + from, end: start + to, length: change.text.length };
  }

  private join(): void {
    const { text, cells } = joinNotebook({
      cells: this.cells.map(({ document, kind, origin }) => ({ text: document.getText(), kind, origin })),
      origin: this.origin,
    });
    this.text = text;
    this.cellDocuments = this.cells.map((cell, k) => ({ ...cell, ...cells[k]! }));
    this.byUri = new Map(this.cellDocuments.map((cell) => [cell.document.uri, cell]));
  }

  offsetAt(uri: string, position: Position): number {
    const cell = this.byUri.get(uri);
    if (!cell) return 0;
    return cell.kind === 'note' ? cell.start : cell.start + cell.document.offsetAt(position);
  }

  holds(start: number, end: number): boolean {
    const cell = this.cellDocumentAt(start);
    return cell?.kind === 'cell' && cell.start <= start && end <= cell.start + cell.document.getText().length;
  }

  locate(start: number, end: number): Location {
    const cell = this.cellDocumentAt(start);
    if (!cell || cell.kind === 'note')
      return { uri: cell?.document.uri ?? '', range: { start: NOWHERE, end: NOWHERE } };
    const { document, start: from } = cell;
    return {
      uri: document.uri,
      range: { start: document.positionAt(start - from), end: document.positionAt(end - from) },
    };
  }

  /** What stands above the first cell is reported there. */
  private cellDocumentAt(offset: number): CellDocument | undefined {
    return this.cellDocuments.findLast(({ from }) => from <= offset) ?? this.cellDocuments[0];
  }
}

const NOWHERE: Position = { line: 0, character: 0 };

function documentOf({ uri, languageId, version, text }: TextDocumentItem): TextDocument {
  return TextDocument.create(uri, languageId, version, text);
}

/** Cells without a document are left out: the client sends those that the server asked for. */
function cellsOf(cells: readonly ProtocolCell[], documents: ReadonlyMap<string, TextDocument>): Cell[] {
  return cells.flatMap(({ document: uri, kind, metadata }) => {
    const document = documents.get(uri);
    if (!document) return [];
    const origin = originIn<CellOrigin>(metadata);
    return [{ document, kind: kind === NotebookCellKind.Markup ? ('note' as const) : ('cell' as const), origin }];
  });
}

/** As the extension's serializer left it. */
function originIn<Origin>(metadata: LSPObject | undefined): Origin | undefined {
  return (metadata as { readonly origin?: Origin } | undefined)?.origin;
}
