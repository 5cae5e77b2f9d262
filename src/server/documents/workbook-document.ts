/**
 * Converts between offsets in a workbook and positions in what the editor holds: one document, or the cells of a
 * notebook. No other code converts.
 */
import type { Location, Position, Range, TextEdit } from 'vscode-languageserver';
import type { Change } from '../../language/index.ts';

export interface WorkbookDocument {
  readonly text: string;
  /** URIs of the documents that it consists of. */
  readonly uris: readonly string[];
  has(uri: string): boolean;
  readonly version: number;
  /** Null for a document on disk that is not open. */
  versionOf(uri: string): number | null;
  offsetAt(uri: string, position: Position): number;
  /** The location of a span in the document in which the span begins, cut at the end of that document. */
  locate(start: number, end: number): Location;
  /** Whether the span lies within one document, so that it can be replaced there. */
  holds(start: number, end: number): boolean;
}

export function rangeOn(document: WorkbookDocument, uri: string, start: number, end: number): Range | undefined {
  const location = document.locate(start, end);
  return location.uri === uri ? location.range : undefined;
}

/** The changes as edits by document. Undefined if a change lies in no document: then none may be applied. */
export function editsOn(
  document: WorkbookDocument,
  changes: readonly Change[],
): ReadonlyMap<string, TextEdit[]> | undefined {
  const edits = new Map<string, TextEdit[]>();
  for (const { start, end, text } of changes) {
    if (!document.holds(start, end)) return undefined;
    const { uri, range } = document.locate(start, end);
    edits.set(uri, [...(edits.get(uri) ?? []), { range, newText: text }]);
  }
  return edits;
}
