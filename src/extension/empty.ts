/** A workbook without cells: what to do about it is offered where it is, in its text. */
import {
  CodeAction,
  CodeActionKind,
  CodeLens,
  commands,
  Disposable,
  l10n,
  languages,
  Range,
  window,
  workspace,
  type TextDocument,
  type Uri,
} from 'vscode';
import { splitCells } from '../cells/index.ts';
import { Command } from './command.ts';
import { createWorkbook } from './create/create.ts';
import { LANGUAGE } from './language.ts';
import { activeWorkbook } from './shown.ts';

/** Whether it has nothing but comments. A notebook's cell is part of a file. */
export function isEmpty(document: TextDocument): boolean {
  if (document.uri.scheme === 'vscode-notebook-cell' || document.lineCount > MOST_LINES) return false;
  return splitCells(document.getText()).cells.length === 0;
}

/** A longer text is not looked through at every key. */
const MOST_LINES = 200;
const TOP = new Range(0, 0, 0, 0);

/** A lens above the first line, a quick fix on every line, and the command of both. */
export function offerQuestions(): Disposable {
  const command = (document: TextDocument) => ({
    command: Command.fillIn,
    title: l10n.t('Fill In from Questions…'),
    arguments: [document.uri],
  });
  return Disposable.from(
    languages.registerCodeLensProvider(LANGUAGE, {
      provideCodeLenses: (document) => (isEmpty(document) ? [new CodeLens(TOP, command(document))] : []),
    }),
    languages.registerCodeActionsProvider(
      LANGUAGE,
      {
        provideCodeActions(document) {
          if (!isEmpty(document)) return [];
          const action = new CodeAction(l10n.t('Fill In from Questions…'), CodeActionKind.QuickFix);
          action.command = command(document);
          action.isPreferred = true;
          return [action];
        },
      },
      { providedCodeActionKinds: [CodeActionKind.QuickFix] },
    ),
    commands.registerCommand(Command.fillIn, fillIn),
  );
}

async function fillIn(uri: Uri | undefined = activeWorkbook()): Promise<void> {
  if (!uri) return;
  const document = await workspace.openTextDocument(uri);
  if (isEmpty(document)) await createWorkbook(document);
  else void window.showInformationMessage(l10n.t('This workbook has cells. A machine can be added with completion.'));
}
