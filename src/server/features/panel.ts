/**
 * Requests of the panel: a station's view model, the mark at the cursor, the location of a mark, and the edits that
 * place one.
 */
import type { Location, Position, WorkspaceEdit } from 'vscode-languageserver';
import {
  CELLS_REQUEST,
  LOCATION_REQUEST,
  PLACE_REQUEST,
  PANEL_REQUEST,
  MARK_REQUEST,
  type UriParams,
} from '../../../shared/messages.ts';
import { cellAt, cellView, placeMark, panelView, markAtCursor } from '../../language/index.ts';
import type { Axes, CellView, PanelView, PanelOptions, TextPlace } from '../../model/index.ts';
import type { Opened } from '../documents/workspace.ts';
import { workspaceEdit } from './edits.ts';
import { guarded, type Session } from '../documents/session.ts';

export function offerPanel(session: Session): void {
  const { connection, workspace } = session;
  const answer = <P extends UriParams, R>(request: string, work: (opened: Opened, params: P) => R | null) =>
    connection.onRequest(
      request,
      guarded(session, request, null, async (params: P): Promise<R | null> => {
        const opened = workspace.byUri(params.uri) ?? workspace.at(params.uri);
        if (!opened) return null;
        await workspace.ready(opened);
        return work(opened, params);
      }),
    );

  answer(
    PANEL_REQUEST,
    ({ book, document }, options: UriParams & PanelOptions): (PanelView & { version: number }) | null => {
      const panel = panelView(book, options);
      return panel ? { ...panel, version: document.version } : null;
    },
  );

  answer(
    MARK_REQUEST,
    ({ book, document }, { uri, position }: UriParams & { position: Position }) =>
      markAtCursor(book, document.offsetAt(uri, position)) ?? null,
  );

  answer(
    CELLS_REQUEST,
    ({ book, document }, { cells }: UriParams & { cells: readonly string[] }): (CellView | null)[] =>
      cells.map((uri) =>
        document.has(uri)
          ? (cellView(book, cellAt(book, document.offsetAt(uri, { line: 0, character: 0 }))) ?? null)
          : null,
      ),
  );

  answer(LOCATION_REQUEST, ({ book, document }, { cell, path }: UriParams & TextPlace): Location | null => {
    const span = book.workbook.entries.find((one) => one.cell === cell && one.entry.spans[path])?.entry.spans[path];
    const from = book.split.cells[cell]?.start;
    return span && from !== undefined ? document.locate(from + span.start, from + span.end) : null;
  });

  answer(PLACE_REQUEST, (opened, { right, up, cell, path }: UriParams & TextPlace & Axes): WorkspaceEdit | null => {
    const changes = placeMark(opened.book, { cell, path }, { right, up });
    return changes ? workspaceEdit([[opened, changes]]) : null;
  });
}
