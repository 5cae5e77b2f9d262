/** Logs advised steps at the end of the workbook, once the user states that they are done. */
import { l10n, window, workspace, type TextEditor, type Uri } from 'vscode';
import { appendCells, withName } from '../cells/index.ts';
import type { StatusStep, StatusWay } from '../model/index.ts';
import { done } from './begun.ts';
import { withTabStops } from './blanks.ts';
import { appendToNotebook } from './notebook/append.ts';
import { nameSetting } from './settings.ts';
import type { Server } from './server.ts';
import { openNotebook, showText } from './shown.ts';

export async function addStep(server: Server, workbook: Uri): Promise<void> {
  const cells = await chosen(server, workbook.toString());
  if (cells) await append(workbook, cells);
}

/** Logs all steps up to the next shot, or those of one way, in one click. */
export async function logStep(server: Server, workbook: Uri, way?: 0 | 1): Promise<void> {
  const status = await server.status(workbook.toString());
  const cells =
    way === undefined ? (status?.steps ?? []).flatMap(({ cell }) => cell ?? []) : (status?.ways?.[way]?.cells ?? []);
  if (cells.length > 0) await append(workbook, cells);
}

/** Appends cells to the workbook, in the view that it is open in. */
export async function append(workbook: Uri, blank: readonly string[]): Promise<void> {
  done('hasLogged');
  const cells = blank.map((cell) => withName(cell, nameSetting()));
  const notebook = openNotebook(workbook);
  if (notebook) return appendToNotebook(notebook, cells);
  const editor = await showText(await workspace.openTextDocument(workbook));
  if (editor) await appendToText(editor, cells);
}

/** The cells of the steps that the user chooses as done. */
async function chosen(server: Server, uri: string): Promise<readonly string[] | undefined> {
  const status = await server.status(uri);
  if (status?.ways) return chosenWay(status.ways);
  const steps = (status?.steps ?? []).filter((step): step is WrittenStep => step.cell !== undefined);
  if (steps.length === 0) {
    void window.showInformationMessage(l10n.t('There is no step to log now.'));
    return undefined;
  }
  const last = steps.length === 1 ? 0 : await lastDone(steps);
  return last === undefined ? undefined : steps.slice(0, last + 1).map(({ cell }) => cell);
}

async function chosenWay(ways: readonly StatusWay[]): Promise<readonly string[] | undefined> {
  const choice = await window.showQuickPick(
    ways.map(({ brief, say, cells }) => ({ label: brief, detail: say, cells })),
    { title: l10n.t('Log Step'), placeHolder: l10n.t('The chances are nearly even. Choose what is done.') },
  );
  return choice?.cells;
}

async function lastDone(steps: readonly WrittenStep[]): Promise<number | undefined> {
  const choice = await window.showQuickPick(
    steps.map(({ brief, say }, index) => ({ label: brief, detail: say, index })),
    {
      title: l10n.t('Log Step'),
      placeHolder: l10n.t('Choose the last step that is done. The steps above it are logged too.'),
      matchOnDetail: true,
    },
  );
  return choice?.index;
}

type WrittenStep = StatusStep & { readonly cell: string };

/** Every value to fill in becomes a tab stop. The cells begin at the first column, however the last line is indented. */
async function appendToText(editor: TextEditor, cells: readonly string[]): Promise<void> {
  const { document } = editor;
  const text = document.getText();
  const snippet = withTabStops(appendCells(text, cells).slice(text.length));
  const end = document.positionAt(text.length);
  await editor.insertSnippet(snippet, end, { undoStopBefore: true, undoStopAfter: true, keepWhitespace: true });
}
