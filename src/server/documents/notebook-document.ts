/** A workbook that is open as a notebook: each cell is a document, and their texts joined are the file. */
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Location, Position, TextDocumentContentChangeEvent, TextDocumentItem } from 'vscode-languageserver';
import { missingEnd, separatorOf } from '../../cells/index.ts';
import type { Edit } from '../../language/index.ts';
import type { WorkbookDocument } from './workbook-document.ts';

interface CellDocument {
  readonly document: TextDocument;
  /** Offset in the file where the cell begins, and where its own text begins: a separator may precede it. */
  readonly from: number;
  readonly start: number;
}

export class NotebookDocument implements WorkbookDocument {
  version: number;
  text = '';
  private cells: TextDocument[];
  private cellDocuments: readonly CellDocument[] = [];
  private byUri: ReadonlyMap<string, CellDocument> = new Map();

  constructor(version: number, cells: readonly TextDocumentItem[]) {
    this.version = version;
    this.cells = cells.map(documentOf);
    this.join();
  }

  get uris(): readonly string[] {
    return this.cells.map(({ uri }) => uri);
  }

  has(uri: string): boolean {
    return this.byUri.has(uri);
  }

  versionOf(uri: string): number | null {
    return this.byUri.get(uri)?.document.version ?? null;
  }

  /** Applies cells that were inserted, removed or moved. */
  restructure(start: number, deleteCount: number, uris: readonly string[], opened: readonly TextDocumentItem[]): void {
    const known = new Map([...this.cells, ...opened.map(documentOf)].map((cell) => [cell.uri, cell]));
    this.cells.splice(start, deleteCount, ...uris.flatMap((uri) => known.get(uri) ?? []));
    this.join();
  }

  /** Applies an edit of one cell. @returns the edit in offsets of the whole file; undefined for an unknown cell */
  change(uri: string, change: TextDocumentContentChangeEvent, version: number): Edit | undefined {
    const document = this.byUri.get(uri)?.document;
    if (!document) return undefined;
    const [from, to] =
      'range' in change
        ? [document.offsetAt(change.range.start), document.offsetAt(change.range.end)]
        : [0, document.getText().length];
    TextDocument.update(document, [change], version);
    this.join();
    const { start } = this.byUri.get(uri)!;
    return { start: start + from, end: start + to, length: change.text.length };
  }

  private join(): void {
    this.text = '';
    let before = '';
    this.cellDocuments = this.cells.map((document, k) => {
      const text = document.getText();
      const ended = missingEnd(before, '\n');
      const separator = k === 0 ? '' : separatorOf(before + ended, text, '\n');
      const from = this.text.length + ended.length;
      before = separator + text;
      this.text += ended + before;
      return { document, from, start: from + separator.length };
    });
    this.byUri = new Map(this.cellDocuments.map((cell) => [cell.document.uri, cell]));
  }

  offsetAt(uri: string, position: Position): number {
    const cell = this.byUri.get(uri);
    return cell ? cell.start + cell.document.offsetAt(position) : 0;
  }

  holds(start: number, end: number): boolean {
    const cell = this.cellDocumentAt(start);
    return cell !== undefined && cell.start <= start && end <= cell.start + cell.document.getText().length;
  }

  locate(start: number, end: number): Location {
    const cell = this.cellDocumentAt(start);
    if (!cell) return { uri: '', range: { start: NOWHERE, end: NOWHERE } };
    const { document, start: from } = cell;
    return {
      uri: document.uri,
      range: { start: document.positionAt(start - from), end: document.positionAt(end - from) },
    };
  }

  private cellDocumentAt(offset: number): CellDocument | undefined {
    return this.cellDocuments.findLast(({ from }) => from <= offset);
  }
}

const NOWHERE: Position = { line: 0, character: 0 };

function documentOf({ uri, languageId, version, text }: TextDocumentItem): TextDocument {
  return TextDocument.create(uri, languageId, version, text);
}
