/** Asks what the machine is like, and creates a workbook that is ready for its first mark. */
import { l10n, Position, Uri, window, workspace, WorkspaceEdit, type TextDocument } from 'vscode';
import { workbookText, type Answers } from '../../create/index.ts';
import { withName } from '../../cells/index.ts';
import { LANGUAGE } from '../language.ts';
import { today } from '../today.ts';
import { nameSetting, readingSetting } from '../settings.ts';
import { BACK } from './question.ts';
import { ask, asked } from './questions.ts';

/** @param into an empty document that the text is added to; absent: a new file */
export async function createWorkbook(into?: TextDocument): Promise<void> {
  const answers = await answered(l10n.t('Create a workbook'));
  if (!answers) return;
  const text = withName(workbookText(answers, today(), readingSetting()), nameSetting());
  await window.showTextDocument(into ? await appended(into, text) : await untitled(answers.name, text));
}

async function appended(document: TextDocument, text: string): Promise<TextDocument> {
  const before = document.getText();
  const edit = new WorkspaceEdit();
  edit.insert(document.uri, document.positionAt(before.length), /[^\n]$/.test(before) ? `\n${text}` : text);
  await workspace.applyEdit(edit);
  return document;
}

/** One question after the other, with a way back; undefined: the user cancelled. */
async function answered(title: string): Promise<Answers | undefined> {
  let answers: Partial<Answers> = {};
  for (let at = 0; ; ) {
    const questions = asked(answers);
    const question = questions[at];
    // The last answer completes them.
    if (!question) return answers as Answers;
    const reply = await ask(question, answers, { title, step: at + 1, totalSteps: questions.length });
    if (reply === undefined) return undefined;
    if (reply === BACK) at -= 1;
    else {
      answers = { ...answers, ...reply };
      at += 1;
    }
  }
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
