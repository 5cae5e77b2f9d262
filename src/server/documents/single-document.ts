/** A workbook that is one document: open in an editor, or on disk. */
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Location, Position, TextDocumentContentChangeEvent } from 'vscode-languageserver';
import type { Edit } from '../../language/index.ts';
import type { WorkbookDocument } from './workbook-document.ts';

export class SingleDocument implements WorkbookDocument {
  readonly uris: readonly string[];
  private readonly document: TextDocument;
  private readonly isOpen: boolean;

  /** @param version undefined for a file on disk that is not open */
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

  has(uri: string): boolean {
    return uri === this.document.uri;
  }

  versionOf(): number | null {
    return this.isOpen ? this.version : null;
  }

  /** Applies one edit. @returns the edit in offsets; undefined if the whole text was replaced */
  change(change: TextDocumentContentChangeEvent, version: number): Edit | undefined {
    const { document } = this;
    const ends =
      'range' in change ? [document.offsetAt(change.range.start), document.offsetAt(change.range.end)] : undefined;
    TextDocument.update(document, [change], version);
    return ends && { start: Math.min(...ends), end: Math.max(...ends), length: change.text.length };
  }

  offsetAt(_: string, position: Position): number {
    return this.document.offsetAt(position);
  }

  holds(): boolean {
    return true;
  }

  locate(start: number, end: number): Location {
    const { document } = this;
    return { uri: document.uri, range: { start: document.positionAt(start), end: document.positionAt(end) } };
  }
}
