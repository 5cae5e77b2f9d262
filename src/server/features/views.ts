/** What is shown beside and above the text: values in lines, hovers. */
import { InlayHintKind, MarkupKind, type Hover, type InlayHint } from 'vscode-languageserver';
import { cellAt, createGuide, hintsOf, hoverAt, isFolded } from '../../language/index.ts';
import { rangeOn } from '../documents/paper.ts';
import { guarded, type Session } from '../documents/session.ts';

export function offerViews(session: Session): void {
  const { connection, desk } = session;
  const guide = createGuide();

  connection.languages.inlayHint.on(
    guarded(session, 'values', [], async ({ textDocument: { uri }, range }, token): Promise<InlayHint[]> => {
      const opened = desk.at(uri);
      if (!opened) return [];
      // What stands further down is not waited for.
      await desk.until(opened, (book) => isFolded(book, cellAt(book, opened.paper.offsetAt(uri, range.end))));
      if (token.isCancellationRequested) return [];
      const { book, paper } = opened;
      const { inlineValues } = session.settings;
      const hints = hintsOf(
        book,
        paper.offsetAt(uri, range.start),
        paper.offsetAt(uri, range.end),
        (kind) => inlineValues[kind],
      );
      return hints.flatMap(({ at, label: text, tooltip }, k) => {
        const place = rangeOn(paper, uri, at, at);
        // Two at one place would run into each other.
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
      const opened = desk.at(uri);
      if (!opened) return null;
      await desk.soon(opened);
      const { book, paper } = opened;
      const found = hoverAt(book, guide, paper.offsetAt(uri, position));
      const range = found && rangeOn(paper, uri, found.start, found.end);
      return found ? { contents: { kind: MarkupKind.Markdown, value: found.text }, ...(range && { range }) } : null;
    }),
  );
}
