/** Inlay hints, hovers, and what is drawn beside the text. */
import { InlayHintKind, MarkupKind, type Hover, type InlayHint } from 'vscode-languageserver';
import {
  blanksOf,
  cellAt,
  createGuide,
  hintsOf,
  hoverAt,
  isFolded,
  signedCells,
  type HintKind,
} from '../../language/index.ts';
import type { Margin } from '../../model/index.ts';
import { isNotebook, type Opened } from '../documents/workspace.ts';
import { rangeOn } from '../documents/workbook-document.ts';
import { answer } from './answer.ts';
import { guarded, type Session } from '../documents/session.ts';

/** What stands below the cell in a notebook is not said in it once more. */
const BELOW: ReadonlySet<HintKind> = new Set(['verdicts', 'turns']);

export function offerViews(session: Session): void {
  const { connection, workspace } = session;
  const guide = createGuide();

  connection.languages.inlayHint.on(
    guarded(session, 'values', [], async ({ textDocument: { uri }, range }, token): Promise<InlayHint[]> => {
      const opened = workspace.at(uri);
      if (!opened) return [];
      // Cells below the requested range are not waited for.
      await workspace.until(opened, (book) => isFolded(book, cellAt(book, opened.document.offsetAt(uri, range.end))));
      if (token.isCancellationRequested) return [];
      const { book, document } = opened;
      const { inlineValues } = session.settings;
      const hints = hintsOf(
        book,
        document.offsetAt(uri, range.start),
        document.offsetAt(uri, range.end),
        (kind) => inlineValues[kind] && !(isNotebook(opened) && BELOW.has(kind)),
      );
      return hints.flatMap(({ at, label: text, tooltip }, k) => {
        const place = rangeOn(document, uri, at, at);
        // Separate two hints at one position.
        const label = hints[k - 1]?.at === at ? `· ${text}` : text;
        return place
          ? [
              {
                position: place.start,
                label,
                kind: InlayHintKind.Parameter,
                paddingLeft: true,
                tooltip: { kind: MarkupKind.Markdown, value: tooltip },
              },
            ]
          : [];
      });
    }),
  );

  connection.onHover(
    guarded(session, 'hover', null, async ({ textDocument: { uri }, position }): Promise<Hover | null> => {
      const opened = workspace.at(uri);
      if (!opened) return null;
      await workspace.soon(opened);
      const { book, document } = opened;
      const hover = hoverAt(book, guide, document.offsetAt(uri, position));
      const range = hover && rangeOn(document, uri, hover.start, hover.end);
      return hover ? { contents: { kind: MarkupKind.Markdown, value: hover.text }, ...(range && { range }) } : null;
    }),
  );

  answer(session, 'alignbook/margin', (opened, { uri }) => marginOf(opened, uri));
}

function marginOf({ book, document }: Opened, uri: string): Margin {
  const ofCell = (index: number): Margin['signed'] => {
    const { start, text } = book.split.cells[index]!;
    const range = rangeOn(document, uri, start, start + text.trimEnd().length);
    return range ? [range] : [];
  };
  return {
    blanks: blanksOf(book).flatMap(({ at, text }) => {
      const range = rangeOn(document, uri, at, at);
      return range ? [{ position: range.start, text }] : [];
    }),
    signed: signedCells(book).flatMap(({ from, to }) =>
      Array.from({ length: to - from + 1 }, (_, k) => from + k).flatMap(ofCell),
    ),
  };
}
