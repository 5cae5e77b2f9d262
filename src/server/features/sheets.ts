/** What the panel asks for: a station's sheet, the text under the cursor, where a mark stands, and how to write one. */
import type { Location, Position, WorkspaceEdit } from 'vscode-languageserver';
import {
  CELLS_REQUEST,
  LOCATION_REQUEST,
  PLACE_REQUEST,
  SHEET_REQUEST,
  SPOT_REQUEST,
  type UriParams,
} from '../../../shared/messages.ts';
import { cellAt, cellSheet, placeMark, sheetOf, sheetSpot } from '../../language/index.ts';
import type { Axes, CellSheet, Sheet, SheetAsked, TextPlace } from '../../model/index.ts';
import type { Opened } from '../documents/desk.ts';
import { workspaceEdit } from './edits.ts';
import { guarded, type Session } from '../documents/session.ts';

export function offerSheets(session: Session): void {
  const { connection, desk } = session;
  const answer = <P extends UriParams, R>(request: string, work: (opened: Opened, params: P) => R | null) =>
    connection.onRequest(
      request,
      guarded(session, request, null, async (params: P): Promise<R | null> => {
        const opened = desk.whole(params.uri) ?? desk.at(params.uri);
        if (!opened) return null;
        await desk.ready(opened);
        return work(opened, params);
      }),
    );

  answer(SHEET_REQUEST, ({ book, paper }, asked: UriParams & SheetAsked): (Sheet & { version: number }) | null => {
    const sheet = sheetOf(book, asked);
    return sheet ? { ...sheet, version: paper.version } : null;
  });

  answer(
    SPOT_REQUEST,
    ({ book, paper }, { uri, position }: UriParams & { position: Position }) =>
      sheetSpot(book, paper.offsetAt(uri, position)) ?? null,
  );

  answer(CELLS_REQUEST, ({ book, paper }, { cells }: UriParams & { cells: readonly string[] }): (CellSheet | null)[] =>
    cells.map((uri) =>
      paper.has(uri) ? (cellSheet(book, cellAt(book, paper.offsetAt(uri, { line: 0, character: 0 }))) ?? null) : null,
    ),
  );

  answer(LOCATION_REQUEST, ({ book, paper }, { cell, path }: UriParams & TextPlace): Location | null => {
    const span = book.workbook.entries.find((one) => one.cell === cell && one.entry.spans[path])?.entry.spans[path];
    const from = book.split.cells[cell]?.start;
    return span && from !== undefined ? paper.locate(from + span.start, from + span.end) : null;
  });

  answer(PLACE_REQUEST, (opened, { right, up, cell, path }: UriParams & TextPlace & Axes): WorkspaceEdit | null => {
    const changes = placeMark(opened.book, { cell, path }, { right, up });
    return changes ? workspaceEdit([[opened, changes]]) : null;
  });
}
