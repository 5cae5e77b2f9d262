/**
 * Offsets in a workbook ↔ positions in what the editor holds: one document, or the cells of a notebook. The only place
 * where the two meet.
 */
import type { Location, Position, Range, TextEdit } from 'vscode-languageserver';
import type { Change } from '../../language/index.ts';

export interface Paper {
  readonly text: string;
  /** Of the documents that it is made of. */
  readonly uris: readonly string[];
  has(uri: string): boolean;
  readonly version: number;
  /** Of a document on disk that nobody has open: null. */
  versionOf(uri: string): number | null;
  offsetAt(uri: string, position: Position): number;
  /** In the document where the stretch begins, as far as it reaches there. */
  locate(start: number, end: number): Location;
  /** Whether the stretch is text of one document, and can be written anew there. */
  holds(start: number, end: number): boolean;
}

export function rangeOn(paper: Paper, uri: string, start: number, end: number): Range | undefined {
  const found = paper.locate(start, end);
  return found.uri === uri ? found.range : undefined;
}

/** Changes of the text as edits of the documents that they lie in; nothing where one of them lies in none: all are made, or none is. */
export function editsOn(paper: Paper, changes: readonly Change[]): ReadonlyMap<string, TextEdit[]> | undefined {
  const edits = new Map<string, TextEdit[]>();
  for (const { start, end, text } of changes) {
    if (!paper.holds(start, end)) return undefined;
    const { uri, range } = paper.locate(start, end);
    edits.set(uri, [...(edits.get(uri) ?? []), { range, newText: text }]);
  }
  return edits;
}
