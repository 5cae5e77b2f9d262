/** What is drawn beside the text: a line along signed visits, and what belongs where a value is blank. */
import { Disposable, Range, ThemeColor, Uri, window, workspace, type TextEditor } from 'vscode';
import type { Margin } from '../model/index.ts';
import { LANGUAGE } from './language.ts';
import { latest } from './latest.ts';
import type { Server } from './server.ts';

/** 3 px at the left of the gutter, in a grey that is seen on every theme. */
const LINE = Uri.parse(
  `data:image/svg+xml;utf8,${encodeURIComponent('<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16" preserveAspectRatio="none" viewBox="0 0 16 16"><rect width="3" height="16" fill="#808080"/></svg>')}`,
);

export function drawMargin(server: Server): Disposable {
  const signed = window.createTextEditorDecorationType({
    isWholeLine: true,
    gutterIconPath: LINE,
    gutterIconSize: '100% 100%',
  });
  const blank = window.createTextEditorDecorationType({});
  const draw = async (editor: TextEditor) => {
    const { document } = editor;
    const { version } = document;
    const margin = await server.request('alignbook/margin', { uri: document.uri.toString() }).catch(() => undefined);
    if (!margin || document.version !== version) return;
    editor.setDecorations(signed, margin.signed.map(rangeOf));
    editor.setDecorations(blank, margin.blanks.map(inFrame));
  };
  const refresh = latest(async () => {
    const editors = window.visibleTextEditors.filter(({ document }) => document.languageId === LANGUAGE);
    await Promise.all(editors.map(draw));
  });
  refresh();
  return Disposable.from(
    signed,
    blank,
    window.onDidChangeVisibleTextEditors(refresh),
    workspace.onDidChangeTextDocument(({ document }) => document.languageId === LANGUAGE && refresh()),
    server.onDidChange(refresh),
  );
}

function rangeOf({ start, end }: Margin['signed'][number]): Range {
  return new Range(start.line, start.character, end.line, end.character);
}

/** Dashed and muted, so that it is not taken for text. */
function inFrame({ position: { line, character }, text }: Margin['blanks'][number]) {
  return {
    range: new Range(line, character, line, character),
    renderOptions: {
      after: {
        contentText: text,
        color: new ThemeColor('editorCodeLens.foreground'),
        border: '1px dashed',
        borderColor: new ThemeColor('editorCodeLens.foreground'),
        margin: '0 0 0 2px',
      },
    },
  };
}
