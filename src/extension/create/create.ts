/** Asks five questions and creates a workbook that is ready for its first mark. */
import { l10n, window } from 'vscode';
import { runQuestions } from './question.ts';
import { QUESTIONS } from './questions.ts';
import { untitled } from './untitled.ts';
import { workbookText } from './workbook-text.ts';

export async function createWorkbook(): Promise<void> {
  const answers = await runQuestions(l10n.t('Create a workbook'), QUESTIONS);
  if (!answers) return;
  const document = await untitled(answers.name, workbookText(answers, new Date().toISOString().slice(0, 10)));
  await window.showTextDocument(document);
}
