/** Asks five questions and creates a workbook that is ready for its first mark. */
import { l10n, Position, Uri, window, workspace, WorkspaceEdit, type TextDocument } from 'vscode';
import { LANGUAGE } from '../language.ts';
import { runQuestions } from './question.ts';
import { QUESTIONS } from './questions.ts';
import { workbookText } from './workbook-text.ts';

export async function createWorkbook(): Promise<void> {
  const answers = await runQuestions(l10n.t('Create a workbook'), QUESTIONS);
  if (!answers) return;
  const document = await untitled(answers.name, workbookText(answers, new Date().toISOString().slice(0, 10)));
  await window.showTextDocument(document);
}

/** An unsaved document with a file name: if a folder is open, saving asks no question. */
async function untitled(name: string, text: string): Promise<TextDocument> {
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
