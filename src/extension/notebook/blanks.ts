/** Values to fill in, as the cells of a step have them; Tab goes from one to the next. */
import {
  commands,
  Disposable,
  Range,
  Selection,
  window,
  workspace,
  type NotebookDocument,
  type TextDocument,
} from 'vscode';
import { blanksIn, withTabStops } from '../blanks.ts';
import { showText } from '../shown.ts';
import { NOTEBOOK } from './type.ts';

/** Whether a blank follows the cursor, in its cell or below: then Tab goes there, else it does what it always does. */
const CONTEXT = 'alignbook.blankAhead';

export function followBlanks(): Disposable {
  let isAhead = false;
  const update = () => {
    const now = blankAhead() !== undefined;
    if (now === isAhead) return;
    isAhead = now;
    void commands.executeCommand('setContext', CONTEXT, now);
  };
  return Disposable.from(
    window.onDidChangeActiveTextEditor(update),
    window.onDidChangeTextEditorSelection(update),
    workspace.onDidChangeTextDocument(update),
  );
}

export async function nextBlank(): Promise<void> {
  const blank = blankAhead();
  const editor = window.activeTextEditor;
  if (!blank || !editor) return;
  if (blank.document !== editor.document) return showBlank(blank.document, blank.offset);
  const at = blank.document.positionAt(blank.offset);
  editor.selection = new Selection(at, at);
  editor.revealRange(editor.selection);
}

/**
 * Shows the first of these cells with a blank, its cursor in the first one. The blanks become tab stops: Tab is the
 * editor's own then, and no key typed quickly after it goes astray.
 */
export async function showFirstBlank(documents: readonly TextDocument[]): Promise<void> {
  const document = documents.find((one) => blanksIn(one.getText()).length > 0) ?? documents[0];
  if (!document) return;
  const text = document.getText();
  const end = document.positionAt(text.length);
  if (blanksIn(text).length === 0) return void (await showText(document, new Range(end, end)));
  const whole = new Range(document.positionAt(0), end);
  const options = { undoStopBefore: false, undoStopAfter: false, keepWhitespace: true };
  // An editor that is made anew just then takes nothing; the next one does.
  for (let tries = 0; tries < TRIES; tries++) {
    const editor = await showText(document);
    const isTaken = await editor?.insertSnippet(withTabStops(text), whole, options).then(
      (taken) => taken,
      () => false,
    );
    if (isTaken || document.getText() !== text) return;
  }
}

const TRIES = 3;

async function showBlank(document: TextDocument, offset: number): Promise<void> {
  const at = document.positionAt(offset);
  await showText(document, new Range(at, at));
}

function blankAhead(): { readonly document: TextDocument; readonly offset: number } | undefined {
  const editor = window.activeTextEditor;
  const notebook = window.activeNotebookEditor?.notebook;
  if (!editor || notebook?.notebookType !== NOTEBOOK) return undefined;
  const { document, selection } = editor;
  const from = document.offsetAt(selection.active);
  const own = blanksIn(document.getText()).find((offset) => offset > from);
  if (own !== undefined) return { document, offset: own };
  return below(notebook, document);
}

function below(notebook: NotebookDocument, document: TextDocument) {
  const index = notebook.getCells().findIndex((cell) => cell.document === document);
  if (index < 0) return undefined;
  for (const { document: other } of notebook.getCells().slice(index + 1)) {
    const [offset] = blanksIn(other.getText());
    if (offset !== undefined) return { document: other, offset };
  }
  return undefined;
}
