/** Asks what the machine is like, and creates a workbook that is ready for its first mark. */
import { l10n, window, workspace, WorkspaceEdit, type TextDocument } from 'vscode';
import { workbookText, type Answers } from '../../create/index.ts';
import { withName } from '../../cells/index.ts';
import { today } from '../today.ts';
import { nameSetting, readingSetting } from '../settings.ts';
import { BACK } from './question.ts';
import { ask, asked } from './questions.ts';
import { untitled } from './untitled.ts';

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
