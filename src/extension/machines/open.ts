/** Opens a workbook from the list of machines: where it is open already, else in the view that the user prefers. */
import {
  commands,
  TabInputNotebook,
  TabInputText,
  Uri,
  ViewColumn,
  window,
  workspace,
  type TextDocument,
} from 'vscode';
import type { TextPlace } from '../../model/index.ts';
import { splitCells } from '../../cells/index.ts';
import { MOST_CELLS, NOTEBOOK } from '../notebook/type.ts';
import type { Server } from '../server.ts';
import { rangeOf } from '../apply.ts';
import { prefersNotebook } from '../settings.ts';
import { showText } from '../shown.ts';
import type { MachinePlace } from './tree.ts';

export async function openMachine(server: Server, { uri, place }: MachinePlace): Promise<void> {
  const workbook = Uri.parse(uri);
  const document = await workspace.openTextDocument(workbook);
  if (isWanted(workbook, document)) {
    const column = tabsOf(workbook, TabInputNotebook)[0]?.group.viewColumn ?? ViewColumn.One;
    await commands.executeCommand('vscode.openWith', workbook, NOTEBOOK, column);
  } else await showText(document);
  if (place) await select(server, uri, place);
}

/** Whether to open it as a notebook. */
function isWanted(workbook: Uri, document: TextDocument): boolean {
  if (tabsOf(workbook, TabInputNotebook).length > 0) return true;
  if (tabsOf(workbook, TabInputText).length > 0) return false;
  return prefersNotebook(workbook) && splitCells(document.getText()).cells.length <= MOST_CELLS;
}

function tabsOf(workbook: Uri, view: typeof TabInputNotebook | typeof TabInputText) {
  return window.tabGroups.all
    .flatMap((group) => group.tabs)
    .filter(({ input }) => input instanceof view && input.uri.toString() === workbook.toString());
}

/** How often, and after how many ms, the server is asked again: it learns of a document after the editor shows it. */
const TIMES = 20;
const PAUSE = 50;

async function select(server: Server, uri: string, { cell, path }: TextPlace): Promise<void> {
  for (let k = 0; k < TIMES; k += 1) {
    const place = await server.request('alignbook/location', { uri, cell, path }).catch(() => undefined);
    if (place) {
      await showText(await workspace.openTextDocument(Uri.parse(place.uri)), rangeOf(place.range));
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
}
