/** Whether a change is a key press, and the offset of the word that it belongs to. */
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import type { Edit, Typed } from '../../language/index.ts';

/** More characters in one change were pasted or completed. */
const KEYSTROKE = 2;

/** @param edit in offsets; undefined if the whole text was replaced */
export function typedBy({ text }: TextDocumentContentChangeEvent, edit: Edit | undefined): Typed | undefined {
  const isKey = edit && edit.length <= KEYSTROKE && edit.end - edit.start <= KEYSTROKE && !text.includes('\n');
  return isKey ? { at: edit.start + edit.length } : undefined;
}
