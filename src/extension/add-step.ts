/** Writes advised steps down, at the end of the workbook, when the person says that they are done. */
import { l10n, SnippetString, window, type TextEditor } from 'vscode';
import { appendCells } from '../cells/index.ts';
import type { StatusStep } from '../../shared/messages.ts';
import { LANGUAGE } from './language.ts';
import type { Server } from './server.ts';

/** A value that is still to be written: nothing between the colon and what closes it. */
const OPEN = /: (?=[,}\n]|$)/g;

export async function addStep(server: Server, editor = window.activeTextEditor): Promise<void> {
  if (editor?.document.languageId !== LANGUAGE) return;
  const status = await server.status(editor.document.uri.toString());
  const steps = (status?.steps ?? []).filter((step): step is WrittenStep => step.cell !== undefined);
  if (steps.length === 0) {
    void window.showInformationMessage(l10n.t('There is no step to write down now.'));
    return;
  }
  const last = await window.showQuickPick(steps.map(({ brief, say }, index) => ({ label: brief, detail: say, index })), {
    title: l10n.t('Write down what is done'),
    placeHolder: l10n.t('Choose the last step that is done; those above it are written down too'),
    matchOnDetail: true,
  });
  if (last) await append(editor, steps.slice(0, last.index + 1).map(({ cell }) => cell));
}

type WrittenStep = StatusStep & { readonly cell: string };

/** Every value that is still open becomes a place that the Tab key goes to. */
export async function append(editor: TextEditor, cells: readonly string[]): Promise<void> {
  const { document } = editor;
  const text = document.getText();
  const [before, ...rest] = appendCells(text, cells).slice(text.length).split(OPEN);
  const snippet = new SnippetString().appendText(before!);
  for (const part of rest) snippet.appendText(': ').appendTabstop().appendText(part);
  const end = document.positionAt(text.length);
  await editor.insertSnippet(snippet, end);
}
