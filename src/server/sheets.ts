/** What the panel asks for: a station's sheet, the text under the cursor, where a mark stands, and how to write one. */
import type { Position, Range, TextEdit } from 'vscode-languageserver';
import { PLACE_REQUEST, RANGE_REQUEST, SHEET_REQUEST, SPOT_REQUEST, type UriParams } from '../../shared/messages.ts';
import { placeMark, sheetOf, sheetSpot } from '../language/index.ts';
import type { Axes, Sheet, SheetAsked, TextPlace } from '../model/index.ts';
import type { Opened } from './desk.ts';
import { editsOn, rangeOn } from './paper.ts';
import { guarded, type Session } from './session.ts';

export function offerSheets(session: Session): void {
  const { connection, desk } = session;
  const answer = <P extends UriParams, R>(request: string, work: (opened: Opened, params: P) => R | null) =>
    connection.onRequest(request, guarded(session, request, null, async (params: P): Promise<R | null> => {
      const opened = desk.whole(params.uri) ?? desk.at(params.uri);
      if (!opened) return null;
      await desk.ready(opened);
      return work(opened, params);
    }));

  answer(SHEET_REQUEST, ({ book, paper }, asked: UriParams & SheetAsked): (Sheet & { version: number }) | null => {
    const sheet = sheetOf(book, asked);
    return sheet ? { ...sheet, version: paper.version } : null;
  });

  answer(SPOT_REQUEST, ({ book, paper }, { uri, position }: UriParams & { position: Position }) => sheetSpot(book, paper.offsetAt(uri, position)) ?? null);

  answer(RANGE_REQUEST, ({ book, paper }, { uri, cell, path }: UriParams & TextPlace): Range | null => {
    const span = book.workbook.entries.find((one) => one.cell === cell && one.entry.spans[path])?.entry.spans[path];
    const from = book.split.cells[cell]?.start;
    return span && from !== undefined ? (rangeOn(paper, uri, from + span.start, from + span.end) ?? null) : null;
  });

  answer(PLACE_REQUEST, ({ book, paper }, { uri, right, up, ...place }: UriParams & TextPlace & Axes): { version: number; edits: TextEdit[] } | null => {
    const changes = placeMark(book, place, { right, up });
    const edits = changes && editsOn(paper, changes)?.get(uri);
    return edits ? { version: paper.version, edits } : null;
  });
}
