/** Inlay hints and hovers. */
import { InlayHintKind, MarkupKind, type Hover, type InlayHint } from 'vscode-languageserver';
import { cellAt, createGuide, hintsOf, hoverAt, isFolded, type HintKind } from '../../language/index.ts';
import { rangeOn } from '../documents/workbook-document.ts';
import { isNotebook } from '../documents/workspace.ts';
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
}
