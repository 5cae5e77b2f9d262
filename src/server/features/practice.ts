/** Practice machines: the blanks to fire for, what is expected of them, the closing sheet, and a new workbook. */
import {
  burnsAtEnd,
  closingInWords,
  closingSheet,
  expectationOf,
  expectedPlace,
  expectEdit,
  practiceWorkbook,
} from '../../language/index.ts';
import { isPath, type Requests } from '../../model/index.ts';
import { guarded, type Session } from '../documents/session.ts';
import { answer } from './answer.ts';
import { workspaceEdit } from './edits.ts';

export function offerPractice(session: Session): void {
  answer(session, 'alignbook/blanks', ({ book, document }) =>
    burnsAtEnd(book).flatMap(({ place, station, shot }) => {
      const from = book.split.cells[place.cell]!.start;
      const span = book.workbook.entries.at(-1)!.entry.spans[place.path];
      if (!span) return [];
      const { uri, range } = document.locate(from + span.start, from + span.end);
      const isExpected = expectationOf(book, place.cell).has(expectedPlace(shot));
      return [{ place, station, label: String(shot.at), uri, range, isExpected }];
    }),
  );

  answer(session, 'alignbook/expect', (opened, { cell, path, words }) => {
    const changes = isPath(path) ? expectEdit(opened.book, { cell, path }, words) : undefined;
    return changes ? workspaceEdit([[opened, changes]]) : null;
  });

  answer(session, 'alignbook/closing', ({ book }) => {
    const closing = closingSheet(book, session.host.tables);
    return closing ? closingInWords(closing) : null;
  });

  session.connection.onRequest(
    'alignbook/practise',
    guarded(session, 'alignbook/practise', null, ({ seed, level }: Requests['alignbook/practise']['params']) => ({
      text: practiceWorkbook(session.host.tables, { seed, level }),
    })),
  );
}
