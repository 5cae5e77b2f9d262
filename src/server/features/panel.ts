/**
 * Requests of the panel and of the notebook: a station's view model, the mark at the cursor, the location of a mark,
 * the edits that place one, and the output below a cell.
 */
import { withName } from '../../cells/index.ts';
import {
  amendMark,
  cellAt,
  cellView,
  placeInNewVisit,
  placeInStep,
  MARK_IN_STEP,
  placeMark,
  panelView,
  markAtCursor,
  signatureBelow,
} from '../../language/index.ts';
import { isPath } from '../../model/index.ts';
import type { Session } from '../documents/session.ts';
import { answer } from './answer.ts';
import { workspaceEdit } from './edits.ts';

export function offerPanel(session: Session): void {
  answer(session, 'alignbook/panel', ({ book, document }, options) => {
    const panel = panelView(book, options);
    return panel ? { ...panel, version: document.version } : null;
  });

  answer(
    session,
    'alignbook/markAt',
    ({ book, document }, { uri, position }) => markAtCursor(book, document.offsetAt(uri, position)) ?? null,
  );

  answer(session, 'alignbook/cells', ({ book, document }, { cells }) =>
    cells.map((uri) =>
      document.has(uri)
        ? (cellView(book, cellAt(book, document.offsetAt(uri, { line: 0, character: 0 }))) ?? null)
        : null,
    ),
  );

  answer(session, 'alignbook/location', ({ book, document }, { cell, path }) => {
    if (!isPath(path)) return null;
    const logged = book.workbook.entries.find((one) => one.cell === cell && Object.hasOwn(one.entry.spans, path));
    const span = logged?.entry.spans[path];
    const from = book.split.cells[cell]?.start;
    return span && from !== undefined ? document.locate(from + span.start, from + span.end) : null;
  });

  answer(session, 'alignbook/placeMark', (opened, { right, up, none, fine = false, cell, path, anew, amend }) => {
    if (!isPath(path)) return null;
    const { book } = opened;
    const mark = none ? 'none' : { right, up, fine };
    const place = anew === true ? placeInNewVisit : cell === MARK_IN_STEP ? placeInStep : placeMark;
    const written = amend ? amendMark(book, { cell, path }, mark, amend) : place(book, { cell, path }, mark);
    // A new visit has the name of whoever opens it.
    const changes = written?.map((change) => ({ ...change, text: withName(change.text, session.settings.by) }));
    const signed = amend || anew === true ? undefined : signatureBelow(book, cell);
    return changes ? { ...workspaceEdit([[opened, changes]]), ...(signed && { signed }) } : null;
  });
}
