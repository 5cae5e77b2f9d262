/** A workbook that is a notebook: every cell is a document of its own, and together their texts are the file. */
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Location, Position, TextDocumentContentChangeEvent, TextDocumentItem } from 'vscode-languageserver';
import { missingEnd, separatorOf } from '../../cells/index.ts';
import type { Edit } from '../../language/index.ts';
import type { Paper } from './paper.ts';

interface Sheet {
  readonly document: TextDocument;
  /** Offset in the whole where the cell begins, and where its own text does: an opener may stand between. */
  readonly from: number;
  readonly start: number;
}

export class NotebookPaper implements Paper {
  version: number;
  text = '';
  private cells: TextDocument[];
  private sheets: readonly Sheet[] = [];
  private byUri: ReadonlyMap<string, Sheet> = new Map();

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

  /** Cells put in, taken out or moved. */
  restructure(start: number, deleteCount: number, uris: readonly string[], opened: readonly TextDocumentItem[]): void {
    const known = new Map([...this.cells, ...opened.map(documentOf)].map((cell) => [cell.uri, cell]));
    this.cells.splice(start, deleteCount, ...uris.flatMap((uri) => known.get(uri) ?? []));
    this.join();
  }

  /** Where in the whole that it now is; how long its cell is may have changed what stands between. */
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
    this.sheets = this.cells.map((document, k) => {
      const text = document.getText();
      const ended = missingEnd(before, '\n');
      const separator = k === 0 ? '' : separatorOf(before + ended, text, '\n');
      const from = this.text.length + ended.length;
      before = separator + text;
      this.text += ended + before;
      return { document, from, start: from + separator.length };
    });
    this.byUri = new Map(this.sheets.map((sheet) => [sheet.document.uri, sheet]));
  }

  offsetAt(uri: string, position: Position): number {
    const sheet = this.byUri.get(uri);
    return sheet ? sheet.start + sheet.document.offsetAt(position) : 0;
  }

  holds(start: number, end: number): boolean {
    const sheet = this.sheetAt(start);
    return sheet !== undefined && sheet.start <= start && end <= sheet.start + sheet.document.getText().length;
  }

  locate(start: number, end: number): Location {
    const sheet = this.sheetAt(start);
    if (!sheet) return { uri: '', range: { start: NOWHERE, end: NOWHERE } };
    const { document, start: from } = sheet;
    return {
      uri: document.uri,
      range: { start: document.positionAt(start - from), end: document.positionAt(end - from) },
    };
  }

  private sheetAt(offset: number): Sheet | undefined {
    return this.sheets.findLast(({ from }) => from <= offset);
  }
}

const NOWHERE: Position = { line: 0, character: 0 };

function documentOf({ uri, languageId, version, text }: TextDocumentItem): TextDocument {
  return TextDocument.create(uri, languageId, version, text);
}
