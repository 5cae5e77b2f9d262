/** Writes an advised step down, at the end of the workbook, when the person says that it is done. */
import { l10n, SnippetString, window, type TextEditor } from 'vscode';
import { appendCells } from '../cells/index.ts';
import type { StatusStep } from '../../shared/messages.ts';
import { LANGUAGE } from './language.ts';
import type { Server } from './server.ts';

/** A value that is still to be written: nothing between the colon and what closes it. */
const OPEN = /: (?=[,}\n]|$)/g;

export async function addStep(server: Server): Promise<void> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== LANGUAGE) return;
  const status = await server.status(editor.document.uri.toString());
  const steps = (status?.steps ?? []).filter((step): step is WrittenStep => step.cell !== undefined);
  if (steps.length === 0) {
    void window.showInformationMessage(l10n.t('There is no step to write down now.'));
    return;
  }
  const done = await window.showQuickPick(steps.map((step) => ({ label: firstLine(step.cell), detail: step.say, step })), {
    title: l10n.t('What has been done?'),
    placeHolder: l10n.t('It is written at the end of the workbook; you fill in the marks'),
    matchOnDetail: true,
  });
  if (done) await append(editor, done.step.cell);
}

type WrittenStep = StatusStep & { readonly cell: string };

/** Every value that is still open becomes a place that the Tab key goes to. */
async function append(editor: TextEditor, cell: string): Promise<void> {
  const { document } = editor;
  const text = document.getText();
  const [before, ...rest] = appendCells(text, [cell]).slice(text.length).split(OPEN);
  const snippet = new SnippetString().appendText(before!);
  for (const part of rest) snippet.appendText(': ').appendTabstop().appendText(part);
  const end = document.positionAt(text.length);
  await editor.insertSnippet(snippet, end);
}

function firstLine(cell: string): string {
  return cell.split('\n', 1)[0]!;
}
