/**
 * What the editor keeps below a cell: no picture, but the place for one. The pictures are sent to the renderer, which
 * draws them there and changes them in place; so no cell is ever executed. Never saved.
 */
import { NotebookCellOutput, NotebookCellOutputItem, type NotebookCell } from 'vscode';
import { SHEET, sheetHeight, isSheet, type Sheet } from '../../model/index.ts';

/** The renderer, as declared in package.json. */
export const RENDERER = 'alignbook.sheets';

/** A place below a cell with this text; none if nothing is shown below its kind. */
export function sheetsFor(text: string): NotebookCellOutput[] {
  const height = sheetHeight(text);
  return height === undefined ? [] : [newSheet(height)];
}

export function newSheet(height: number): NotebookCellOutput {
  const sheet: Sheet = { key: crypto.randomUUID(), height };
  return new NotebookCellOutput([NotebookCellOutputItem.json(sheet, SHEET)]);
}

const keys = new WeakMap<NotebookCellOutput, string | undefined>();

/** The key of the place below a cell; undefined if it has none. */
export function keyOf({ outputs }: NotebookCell): string | undefined {
  const [output] = outputs;
  if (!output) return undefined;
  if (!keys.has(output)) keys.set(output, keyIn(output));
  return keys.get(output);
}

function keyIn({ items }: NotebookCellOutput): string | undefined {
  const item = items.find(({ mime }) => mime === SHEET);
  if (!item) return undefined;
  const sheet: unknown = JSON.parse(new TextDecoder().decode(item.data));
  return isSheet(sheet) ? sheet.key : undefined;
}
