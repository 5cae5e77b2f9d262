/** Applies edits that the server made for a version of the text, as one edit, which one undo reverts. */
import { Range, Uri, workspace, WorkspaceEdit } from 'vscode';
import type { TextRange, VersionedEdits } from '../model/index.ts';

/** @returns false if a document was changed meanwhile, so that the ranges are out of date */
export async function applyVersioned({ documentChanges }: VersionedEdits): Promise<boolean> {
  const edit = new WorkspaceEdit();
  for (const { textDocument, edits } of documentChanges) {
    const document = await workspace.openTextDocument(Uri.parse(textDocument.uri));
    if (document.version !== textDocument.version) return false;
    for (const { range, newText } of edits) edit.replace(document.uri, rangeOf(range), newText);
  }
  return workspace.applyEdit(edit);
}

export function rangeOf({ start, end }: TextRange): Range {
  return new Range(start.line, start.character, end.line, end.character);
}
