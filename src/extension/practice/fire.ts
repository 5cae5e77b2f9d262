/** Fires for a blank of a practice machine: first what is expected is written, then the tape is shown. */
import { l10n, Uri, window } from 'vscode';
import type { TextPlace } from '../../model/index.ts';
import { applyVersioned } from '../apply.ts';
import type { Server } from '../server.ts';
import { nameOf } from './lenses.ts';

/** Asks for the expectation unless it is written; undefined if the question was left. */
export async function askExpectation(server: Server, uri: Uri, place: TextPlace): Promise<string | undefined> {
  const blanks = await server.request('alignbook/blanks', { uri: uri.toString() });
  const blank = blanks?.find((one) => one.place.cell === place.cell && one.place.path === place.path);
  if (!blank || blank.isExpected) return '';
  return window.showInputBox({
    title: l10n.t('Fire: {0}', nameOf(blank)),
    prompt: l10n.t('What do you expect? Write it before you fire, or leave it empty.'),
    placeHolder: '1.0 left 2.0 up',
  });
}

/** @returns whether it is written, or there was nothing to write */
export async function writeExpectation(server: Server, uri: Uri, place: TextPlace, words: string): Promise<boolean> {
  if (words === '') return true;
  const edits = await server.request('alignbook/expect', { uri: uri.toString(), ...place, words });
  if (edits) return applyVersioned(edits);
  void window.showWarningMessage(l10n.t('“{0}” is no mark. Write it as in a cell: 1.0 left 2.0 up.', words));
  return false;
}

/** The arguments of the command, as a lens gives them. */
export function firedIn(uri: unknown, place: unknown): { readonly uri: Uri; readonly place: TextPlace } | undefined {
  if (typeof uri !== 'string' || typeof place !== 'object' || place === null) return undefined;
  return { uri: Uri.parse(uri), place: place as TextPlace };
}
