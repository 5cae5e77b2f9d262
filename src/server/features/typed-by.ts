/** Whether a change is a key that was pressed, and where the word stands that it belongs to. */
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import type { Edit, Typed } from '../../language/index.ts';

/** More characters at once are not typed. */
const KEYSTROKE = 2;

/** @param edit where the change was; nothing where the whole text was replaced */
export function typedBy({ text }: TextDocumentContentChangeEvent, edit: Edit | undefined): Typed | undefined {
  const isKey = edit && edit.length <= KEYSTROKE && edit.end - edit.start <= KEYSTROKE && !text.includes('\n');
  return isKey ? { at: edit.start + edit.length } : undefined;
}
