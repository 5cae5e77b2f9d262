/**
 * Offsets in a workbook ↔ positions in what the editor holds: one document, or the cells of a notebook. The only place
 * where the two meet.
 */
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Location, Position, Range, TextDocumentContentChangeEvent, TextEdit } from 'vscode-languageserver';
import type { Edit } from '../language/index.ts';

export interface Paper {
  readonly text: string;
  /** Of the documents that it is made of. */
  readonly uris: readonly string[];
  readonly version: number;
  /** Of a document on disk that nobody has open: null. */
  versionOf(uri: string): number | null;
  offsetAt(uri: string, position: Position): number;
  /** In the document where the stretch begins, as far as it reaches there. */
  locate(start: number, end: number): Location;
}

export function rangeOn(paper: Paper, uri: string, start: number, end: number): Range | undefined {
  const found = paper.locate(start, end);
  return found.uri === uri ? found.range : undefined;
}

/** A change of the text as an edit of the document that it lies in. */
export function editOn(paper: Paper, { start, end, text }: { readonly start: number; readonly end: number; readonly text: string }): { uri: string; edit: TextEdit } {
  const { uri, range } = paper.locate(start, end);
  return { uri, edit: { range, newText: text } };
}

export class TextPaper implements Paper {
  readonly uris: readonly string[];
  private readonly document: TextDocument;
  private readonly isOpen: boolean;

  /** @param version nothing for a file on disk that nobody has open */
  constructor(uri: string, version: number | undefined, text: string) {
    this.uris = [uri];
    this.isOpen = version !== undefined;
    this.document = TextDocument.create(uri, 'alignbook', version ?? 0, text);
  }

  get text(): string {
    return this.document.getText();
  }

  get version(): number {
    return this.document.version;
  }

  versionOf(): number | null {
    return this.isOpen ? this.version : null;
  }

  /** One edit at a time, so that each tells where it was. */
  change(change: TextDocumentContentChangeEvent, version: number): Edit | undefined {
    const { document } = this;
    const edit = 'range' in change ? { start: document.offsetAt(change.range.start), end: document.offsetAt(change.range.end), length: change.text.length } : undefined;
    TextDocument.update(document, [change], version);
    return edit;
  }

  offsetAt(_: string, position: Position): number {
    return this.document.offsetAt(position);
  }

  locate(start: number, end: number): Location {
    const { document } = this;
    return { uri: document.uri, range: { start: document.positionAt(start), end: document.positionAt(end) } };
  }
}
