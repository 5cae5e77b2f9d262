/** A new workbook that is not saved yet. */
import { Position, Uri, workspace, WorkspaceEdit, type TextDocument } from 'vscode';
import { LANGUAGE } from '../language.ts';

/** An unsaved document with a file name: if a folder is open, saving asks no question. */
export async function untitled(name: string, text: string): Promise<TextDocument> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  if (!folder) return workspace.openTextDocument({ language: LANGUAGE, content: text });
  const uri = await free(folder, name);
  const document = await workspace.openTextDocument(uri.with({ scheme: 'untitled' }));
  const edit = new WorkspaceEdit();
  edit.insert(document.uri, new Position(0, 0), text);
  await workspace.applyEdit(edit);
  return document;
}

/** The URI of a file that does not exist yet. */
async function free(folder: Uri, name: string): Promise<Uri> {
  for (let number = 1; ; number += 1) {
    const uri = Uri.joinPath(folder, `${name}${number === 1 ? '' : `-${number}`}.alignbook.yaml`);
    const open = workspace.textDocuments.some((document) => document.uri.path === uri.path);
    if (!open && !(await exists(uri))) return uri;
  }
}

async function exists(uri: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
